package purgewright.sealflow.supply;

import purgewright.fluids.FluidState;
import purgewright.fluids.PureFluid;

/**
 * Equal bottles emptied together: a real gas in a wall that gives heat to it.
 *
 * <p>What stays behind keeps its entropy but for the heat it gets,
 *
 * <pre>{@code dm/dt = -flow,   m T ds/dt = UA (Tw - T),   C dTw/dt = UA (T - Tw) + UA_out (Ta - Tw)}</pre>
 *
 * <p>so that UA = 0 is the adiabatic limit (constant entropy) and UA, C to infinity the isothermal one (checks SUP-05). One
 * temperature for the gas, one for the wall. Integrated by the classical Runge-Kutta method in steps that draw at most a hundredth
 * of the gas and stay well below the time constants of the walls; energy, which is not what is integrated, closes to about 1e-9.
 *
 * @param gas what is in them
 * @param volume of one, m3
 * @param number of bottles
 * @param pressure at the start, Pa
 * @param temperature of gas and wall at the start, K
 * @param conductance from the walls to the gas, all bottles together, W/K
 * @param wallCapacity heat capacity of the walls, all bottles together, J/K; infinity for a wall that never cools
 * @param outsideConductance from the surroundings to the walls, all bottles together, W/K
 */
public record Bottles(
        PureFluid gas,
        double volume,
        int number,
        double pressure,
        double temperature,
        double conductance,
        double wallCapacity,
        double outsideConductance) {
    private static final double SHARE_PER_STEP = 0.01;
    private static final int MOST_STEPS = 200_000;

    /** Checks. */
    public Bottles {
        if (!(volume > 0) || number < 1 || !(pressure > 0) || !(temperature > 0)) {
            throw new IllegalArgumentException("volume " + volume + " m3, number " + number + ", pressure " + pressure
                    + " Pa and temperature " + temperature + " K must be above 0");
        }
        if (!(conductance >= 0) || !(wallCapacity > 0) || !(outsideConductance >= 0)) {
            throw new IllegalArgumentException("conductances " + conductance + " and " + outsideConductance
                    + " W/K must be at least 0 and wall capacity " + wallCapacity + " J/K above 0");
        }
    }

    /** Gas in all bottles, kg. */
    public double filling() {
        return held(pressure, temperature);
    }

    /** Gas in all bottles at another pressure and temperature, kg. */
    public double held(double atPressure, double atTemperature) {
        return gas.atPressureTemperature(atPressure, atTemperature).density() * volume * number;
    }

    /** Full, settled. */
    public BottleState start() {
        return settled(pressure, temperature);
    }

    /** Gas and walls at one temperature: what a gauge shows after hours. */
    public BottleState settled(double atPressure, double atTemperature) {
        FluidState s = gas.atPressureTemperature(atPressure, atTemperature);
        return new BottleState(s.density() * volume * number, atTemperature, s);
    }

    /** The same mass when gas and walls have come to a temperature. */
    public BottleState settle(BottleState state, double atTemperature) {
        FluidState s = gas.atDensityTemperature(state.mass() / (volume * number), atTemperature);
        return new BottleState(state.mass(), atTemperature, s);
    }

    /** Settled with a mass given. */
    public BottleState settledMass(double mass, double atTemperature) {
        FluidState s = gas.atDensityTemperature(mass / (volume * number), atTemperature);
        return new BottleState(mass, atTemperature, s);
    }

    /**
     * What a draw leaves, and what crossed the boundary meanwhile.
     *
     * @param state at the end
     * @param enthalpy carried out, J
     * @param heat from the walls to the gas, J
     * @param outside heat from the air to the walls, J
     */
    public record Drawn(BottleState state, double enthalpy, double heat, double outside) {}

    /**
     * Draws gas for a time, the flow going linearly from one value to another.
     *
     * @param from state at the start
     * @param first flow at the start, kg/s
     * @param last flow at the end, kg/s
     * @param duration s
     * @param surroundings temperature, K
     * @throws IllegalArgumentException when more is drawn than the bottles hold
     */
    public Drawn draw(BottleState from, double first, double last, double duration, double surroundings) {
        double total = (first + last) / 2 * duration;
        if (!(total < from.mass())) {
            throw new IllegalArgumentException(
                    "more is drawn than the bottles hold: " + total + " kg of " + from.mass());
        }
        double shares = Math.abs(total) / (from.mass() - Math.max(total, 0)) / SHARE_PER_STEP;
        double rate = conductance / (from.mass() * from.gas().cv());
        rate = Math.max(rate, (conductance + outsideConductance) / wallCapacity);
        double steps = Math.ceil(Math.max(shares, duration * rate / 0.1));
        int n = (int) Math.max(1, Math.min(MOST_STEPS, steps));
        double dt = duration / n;
        // mass, entropy, wall temperature; carried out, heat, outside
        double[] z = {from.mass(), from.gas().entropy(), from.wall(), 0, 0, 0};
        double guess = from.temperature();
        for (int i = 0; i < n; i++) {
            double f0 = first + (last - first) * i / n;
            double f1 = first + (last - first) * (i + 1) / n;
            double[] a = slope(z, f0, guess, surroundings);
            double[] b = slope(add(z, a, dt / 2), (f0 + f1) / 2, guess, surroundings);
            double[] c = slope(add(z, b, dt / 2), (f0 + f1) / 2, guess, surroundings);
            double[] d = slope(add(z, c, dt), f1, guess, surroundings);
            for (int k = 0; k < z.length; k++) {
                z[k] += dt / 6 * (a[k] + 2 * b[k] + 2 * c[k] + d[k]);
            }
            guess = state(z[0], z[1], guess).temperature();
        }
        BottleState end = new BottleState(z[0], z[2], state(z[0], z[1], guess));
        return new Drawn(end, z[3], z[4], z[5]);
    }

    private static double[] add(double[] z, double[] slope, double step) {
        double[] out = new double[z.length];
        for (int k = 0; k < z.length; k++) {
            out[k] = z[k] + step * slope[k];
        }
        return out;
    }

    private double[] slope(double[] z, double flow, double guess, double surroundings) {
        FluidState s = state(z[0], z[1], guess);
        double heat = conductance * (z[2] - s.temperature());
        double outside = outsideConductance * (surroundings - z[2]);
        return new double[] {
            -flow, heat / (z[0] * s.temperature()), (outside - heat) / wallCapacity, flow * s.enthalpy(), heat, outside
        };
    }

    /** State of given mass and entropy, by Newton in the temperature: (ds/dT) at constant density is cv/T. */
    private FluidState state(double mass, double entropy, double guess) {
        if (!(mass > 0)) {
            throw new IllegalArgumentException("more is drawn than the bottles hold");
        }
        double density = mass / (volume * number);
        double t = guess;
        FluidState s = gas.atDensityTemperature(density, t);
        for (int n = 0; n < 50; n++) {
            double miss = entropy - s.entropy();
            if (Math.abs(miss) < 1e-12 * s.cv()) {
                break;
            }
            t *= Math.exp(Math.max(-0.5, Math.min(0.5, miss / s.cv())));
            s = gas.atDensityTemperature(density, t);
            if (Math.abs(miss) < 1e-7 * s.cv()) {
                // Newton's error is the square of the last miss.
                break;
            }
        }
        return s;
    }

    /**
     * State of the gas left when the pressure has fallen without any heat.
     *
     * @param end Pa
     */
    public FluidState adiabatic(double end) {
        return gas.atPressureEntropy(
                end, gas.atPressureTemperature(pressure, temperature).entropy());
    }

    /** State of the gas left when the pressure has fallen at the first temperature. */
    public FluidState isothermal(double end) {
        return gas.atPressureTemperature(end, temperature);
    }

    /** Share of the filling that has been drawn when the gas left is in that state. */
    public double drawn(FluidState left) {
        return 1
                - left.density()
                        / gas.atPressureTemperature(pressure, temperature).density();
    }
}
