package purgewright.sealflow.supply;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * Bottles drawn over time: pressure, temperature and what is left.
 *
 * @param samples one a time step, the first at 0
 * @param emptyAt time at which the least usable pressure was reached, s; NaN when it was not
 * @param energyDefect what the energy balance of gas leaves over, as a share of the first thermal energy m cv T
 */
public record Emptying(List<Sample> samples, double emptyAt, double energyDefect) {
    /**
     * @param time s
     * @param mass left in all bottles, kg
     * @param pressure Pa
     * @param temperature of the gas, K
     * @param wall temperature of the walls, K
     */
    public record Sample(double time, double mass, double pressure, double temperature, double wall) {}

    /**
     * Draws gas step by step; within a step the flow goes linearly.
     *
     * @param bottles what is drawn from
     * @param flow taken at a time, kg/s
     * @param duration s
     * @param steps number of equal steps, at least 1
     * @param surroundings temperature, K
     * @param least usable pressure, Pa: the run ends there
     */
    public static Emptying run(
            Bottles bottles, DoubleUnaryOperator flow, double duration, int steps, double surroundings, double least) {
        if (!(duration > 0) || steps < 1) {
            throw new IllegalArgumentException(
                    "duration " + duration + " s must be above 0 and steps " + steps + " at least 1");
        }
        BottleState first = bottles.start();
        BottleState now = first;
        double energy = first.energy();
        double scale = first.mass() * first.gas().cv() * first.temperature();
        double dt = duration / steps;
        List<Sample> samples = new ArrayList<>();
        samples.add(sample(0, now));
        double empty = Double.NaN;
        for (int n = 0; n < steps && Double.isNaN(empty); n++) {
            double t = n * dt;
            Bottles.Drawn drawn =
                    bottles.draw(now, flow.applyAsDouble(t), flow.applyAsDouble(t + dt), dt, surroundings);
            energy += drawn.heat() - drawn.enthalpy();
            if (drawn.state().pressure() <= least) {
                double share = (now.pressure() - least)
                        / (now.pressure() - drawn.state().pressure());
                empty = t + share * dt;
            }
            now = drawn.state();
            samples.add(sample(t + dt, now));
        }
        return new Emptying(List.copyOf(samples), empty, (now.energy() - energy) / scale);
    }

    private static Sample sample(double time, BottleState s) {
        return new Sample(time, s.mass(), s.pressure(), s.temperature(), s.wall());
    }

    /** The last sample. */
    public Sample last() {
        return samples.get(samples.size() - 1);
    }
}
