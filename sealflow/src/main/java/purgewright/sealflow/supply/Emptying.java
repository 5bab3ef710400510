package purgewright.sealflow.supply;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import purgewright.fluids.FluidState;

/**
 * Bottles drawn over time: pressure, temperature and what is left.
 *
 * @param samples one a time step, the first at 0
 * @param emptyAt time at which the least usable pressure was reached, s; NaN when it was not
 */
public record Emptying(List<Sample> samples, double emptyAt) {
    /**
     * @param time s
     * @param mass left in all bottles, kg
     * @param pressure Pa
     * @param temperature of the gas, K
     * @param wall temperature of the walls, K
     */
    public record Sample(double time, double mass, double pressure, double temperature, double wall) {}

    /**
     * Draws gas by the classical Runge-Kutta method in (mass, entropy, wall temperature).
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
        FluidState s = bottles.gas().atPressureTemperature(bottles.pressure(), bottles.temperature());
        double[] z = {bottles.filling(), s.entropy(), bottles.temperature()};
        double guess = bottles.temperature();
        double dt = duration / steps;
        List<Sample> samples = new ArrayList<>();
        samples.add(new Sample(0, z[0], s.pressure(), s.temperature(), z[2]));
        for (int n = 0; n < steps; n++) {
            double t = n * dt;
            double[] a = slope(bottles, flow.applyAsDouble(t), z, guess, surroundings);
            double middle = flow.applyAsDouble(t + dt / 2);
            double[] b = slope(bottles, middle, add(z, a, dt / 2), guess, surroundings);
            double[] c = slope(bottles, middle, add(z, b, dt / 2), guess, surroundings);
            double[] d = slope(bottles, flow.applyAsDouble(t + dt), add(z, c, dt), guess, surroundings);
            for (int i = 0; i < 3; i++) {
                z[i] += dt / 6 * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
            }
            FluidState now = state(bottles, z, guess);
            Sample before = samples.get(n);
            if (now.pressure() <= least) {
                double share = (before.pressure() - least) / (before.pressure() - now.pressure());
                samples.add(new Sample(t + dt, z[0], now.pressure(), now.temperature(), z[2]));
                return new Emptying(List.copyOf(samples), t + share * dt);
            }
            guess = now.temperature();
            samples.add(new Sample(t + dt, z[0], now.pressure(), now.temperature(), z[2]));
        }
        return new Emptying(List.copyOf(samples), Double.NaN);
    }

    /** The last sample. */
    public Sample last() {
        return samples.get(samples.size() - 1);
    }

    private static double[] add(double[] z, double[] slope, double step) {
        return new double[] {z[0] + step * slope[0], z[1] + step * slope[1], z[2] + step * slope[2]};
    }

    private static double[] slope(Bottles b, double flow, double[] z, double guess, double surroundings) {
        FluidState s = state(b, z, guess);
        double heat = b.conductance() * (z[2] - s.temperature());
        return new double[] {
            -flow,
            heat / (z[0] * s.temperature()),
            (b.outsideConductance() * (surroundings - z[2]) - heat) / b.wallCapacity()
        };
    }

    /** State of given density and entropy, by Newton in the temperature: (ds/dT) at constant density is cv/T. */
    private static FluidState state(Bottles b, double[] z, double guess) {
        if (!(z[0] > 0)) {
            throw new IllegalArgumentException("more is drawn than the bottles hold");
        }
        double density = z[0] / (b.volume() * b.number());
        double t = guess;
        FluidState s = b.gas().atDensityTemperature(density, t);
        for (int n = 0; n < 50; n++) {
            double miss = z[1] - s.entropy();
            t *= Math.exp(Math.max(-0.5, Math.min(0.5, miss / s.cv())));
            s = b.gas().atDensityTemperature(density, t);
            if (Math.abs(miss) < 1e-9 * s.cv()) {
                break;
            }
        }
        return s;
    }
}
