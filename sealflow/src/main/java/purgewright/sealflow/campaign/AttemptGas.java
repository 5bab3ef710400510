package purgewright.sealflow.campaign;

import java.util.ArrayList;
import java.util.List;

/**
 * What one attempt takes over time, phase by phase: flow going linearly from point to point.
 *
 * @param phases in order
 */
public record AttemptGas(List<Phase> phases) {
    /**
     * One phase.
     *
     * @param name of the phase
     * @param time from the phase's start, ascending, the first 0, s
     * @param flow kg/s, one a time
     */
    public record Phase(String name, List<Double> time, List<Double> flow) {
        /** Checks. */
        public Phase {
            time = List.copyOf(time);
            flow = List.copyOf(flow);
            if (time.isEmpty() || time.size() != flow.size()) {
                throw new IllegalArgumentException("phase " + name + " needs one flow a time");
            }
        }

        /** s. */
        public double duration() {
            return time.get(time.size() - 1);
        }

        /** Gas up to a time, kg. */
        public double gas(double until) {
            double sum = 0;
            for (int i = 1; i < time.size(); i++) {
                double a = time.get(i - 1);
                double b = time.get(i);
                if (until <= a || b <= a) {
                    continue;
                }
                double share = Math.min(1, (until - a) / (b - a));
                double end = flow.get(i - 1) + share * (flow.get(i) - flow.get(i - 1));
                sum += (flow.get(i - 1) + end) / 2 * share * (b - a);
            }
            return sum;
        }

        /** Gas of the whole phase, kg. */
        public double gas() {
            return gas(duration());
        }

        /** A phase of steady flow. */
        public static Phase steady(String name, double duration, double flow) {
            return new Phase(name, List.of(0.0, duration), List.of(flow, flow));
        }
    }

    /** Checks. */
    public AttemptGas {
        phases = List.copyOf(phases);
    }

    /** From the moments of a run; reverse flow counts as none. */
    public static AttemptGas of(DutyClock clock, List<DutyRun.Instant> instants) {
        List<Phase> out = new ArrayList<>();
        for (int leg = 0; leg < clock.legs().size(); leg++) {
            List<Double> t = new ArrayList<>();
            List<Double> m = new ArrayList<>();
            for (DutyRun.Instant i : instants) {
                if (i.leg() == leg) {
                    double since = i.time() - clock.start(leg);
                    t.add(t.isEmpty() ? 0 : since);
                    m.add(Math.max(0, i.flow()));
                }
            }
            if (!t.isEmpty()) {
                out.add(new Phase(clock.legs().get(leg).name(), t, m));
            }
        }
        return new AttemptGas(out);
    }

    /** kg. */
    public double gas() {
        return phases.stream().mapToDouble(Phase::gas).sum();
    }

    /** s. */
    public double duration() {
        return phases.stream().mapToDouble(Phase::duration).sum();
    }

    /** kg/s. */
    public double peakFlow() {
        return phases.stream()
                .flatMap(p -> p.flow().stream())
                .mapToDouble(Double::doubleValue)
                .max()
                .orElse(0);
    }

    /** The same with more phases in front. */
    public AttemptGas after(List<Phase> first) {
        List<Phase> all = new ArrayList<>(first);
        all.addAll(phases);
        return new AttemptGas(all);
    }
}
