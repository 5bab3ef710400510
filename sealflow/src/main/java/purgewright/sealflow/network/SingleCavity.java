package purgewright.sealflow.network;

import java.util.function.BiConsumer;
import java.util.function.ToDoubleFunction;
import purgewright.fluids.PropertyException;

/**
 * One cavity's pressure and enthalpy to where both its balances close, all others and its mixture held: for each enthalpy the pressure at which as
 * much comes as goes, and among these the one at which the heat is balanced.
 *
 * <p>In a cavity that boils, the temperature follows the pressure, and the pressure what the cavity holds where a disc's vortex stands between it
 * and its neighbours. Its heat then answers to no enthalpy at a pressure that is held, and to no pressure at an enthalpy that is held; taken
 * together they mostly have one zero, or none, between the ends of the fluid's range.
 */
final class SingleCavity {
    /** First steps of an enthalpy (J/kg) and of ln p that are looked for, and how many may follow. */
    private static final double FIRST_STRIDE = 1000;

    private static final double NARROW = 1e-5;
    private static final int MOST = 60;

    /** How much further than a straight line tells, so that a zero comes to lie in between. */
    private static final double BEYOND_LINE = 1.3;

    /** How close a pressure is closed, in ln p. */
    private static final double CLOSE = 1e-11;

    /** Share of an enthalpy and of ln p that is rounding. */
    private static final double ROUNDING = 3e-16;

    /**
     * Heat below so many times what its wall's is rounded by asks for the last digits of a pressure: where a film between liquid and vapour drags
     * 10 kW at a drop of 0.005 %, what the pressure is off by 1e-11 is 0.4 mW.
     */
    private static final double LAST = 1e3;

    /** Share of its imbalance to which a cavity's heat is closed. */
    private static final double CLOSER = 0.01;

    private final Network net;
    private final int i;
    private final ToDoubleFunction<Iterate> leftOver;

    /** @param leftOver what flows into cavity {@code i} and not out of it, kg/s */
    SingleCavity(Network net, int i, ToDoubleFunction<Iterate> leftOver) {
        this.net = net;
        this.i = i;
        this.leftOver = leftOver;
    }

    /** Goes on from {@code x}, which must be evaluated, and leaves it so; false where there was nothing to do. */
    boolean settle(Iterate x, Iterate trial) {
        return settle(x, trial, this::closeMass);
    }

    /**
     * As the other, but for each enthalpy closes what is given here.
     *
     * @param masses closes masses by pressures, from an iterate, with another to try with
     */
    boolean settle(Iterate x, Iterate trial, BiConsumer<Iterate, Iterate> masses) {
        if (x.held(i) || Math.abs(x.energy[i]) <= x.wallRounding[i]) {
            return false;
        }
        masses.accept(x, trial);
        double goal = Math.max(CLOSER * Math.abs(x.energy[i]), x.wallRounding[i]);
        double stride = Math.abs(x.energy[i]) / Math.max(x.through[i], Descent.NO_FLOW);
        Bracket around = new Bracket(Math.min(FIRST_STRIDE, stride));
        Iterate nearest = new Iterate(net);
        double least = Double.POSITIVE_INFINITY;
        for (int n = 0; n < MOST && !x.held(i) && Math.abs(x.energy[i]) > goal; n++) {
            if (Thread.currentThread().isInterrupted()) {
                return true;
            }
            if (Math.abs(x.energy[i]) < least) {
                least = Math.abs(x.energy[i]);
                nearest.copyFrom(x);
            }
            around.add(x.enthalpy[i], x.energy[i]);
            if (around.narrow((last(x) ? ROUNDING : 1e-13) * Math.abs(x.enthalpy[i]))) {
                break;
            }
            double next = around.next();
            if (place(x, trial, next)) {
                x.adopt(trial);
                masses.accept(x, trial);
            } else {
                around.refuse(next);
            }
        }
        // Where nothing closes it, as across a jump, it must not end further off than it was.
        if (!x.held(i) && Math.abs(x.energy[i]) > least) {
            x.adopt(nearest);
        }
        return true;
    }

    private boolean last(Iterate x) {
        return Math.abs(x.energy[i]) < LAST * x.wallRounding[i];
    }

    /** One pressure to where its own balance closes, all but the digits that are left to the pressures together. */
    private void closeMass(Iterate x, Iterate trial) {
        Bracket around = new Bracket(NARROW);
        for (int n = 0; n < MOST; n++) {
            double left = leftOver.applyAsDouble(x);
            around.add(Math.log(x.pressure[i]), left);
            boolean last = last(x);
            double enough = last ? 1e-9 * x.through[i] : Math.max(Descent.NO_FLOW, 1e-9 * x.through[i]);
            if (Math.abs(left) <= enough || around.narrow(last ? ROUNDING * Math.log(x.pressure[i]) : CLOSE)) {
                return;
            }
            double next = around.next();
            double p = Math.exp(next);
            if (!(p > net.lowestPressure && p < net.highestPressure)) {
                return;
            }
            trial.copyFrom(x);
            trial.setKeepingEnd(i, p, x.enthalpy[i], x.fraction[i], x);
            try {
                trial.evaluate();
                x.adopt(trial);
            } catch (PropertyException e) {
                around.refuse(next);
            }
        }
    }

    /**
     * Looks for a zero of what falls with a value: by a straight line through the last two points until it lies between two, then by one
     * through those (regula falsi, every fourth time the middle).
     */
    private static final class Bracket {
        private final double first;
        private double low = Double.NaN;
        private double high = Double.NaN;
        private double atLow;
        private double atHigh;
        private double last = Double.NaN;
        private double atLast;
        private double before;
        private double atBefore;
        private int count;

        /** @param first length of the first step */
        Bracket(double first) {
            this.first = first;
        }

        void add(double at, double value) {
            if (at != last) {
                before = last;
                atBefore = atLast;
                last = at;
                atLast = value;
            }
            if (value > 0) {
                // An end that stays for long is taken for less, so that the other moves too (Illinois).
                atHigh *= low <= at ? 0.5 : 1;
                low = at;
                atLow = value;
            } else {
                atLow *= high >= at ? 0.5 : 1;
                high = at;
                atHigh = value;
            }
        }

        /** No state there: as if it lay as far beyond the zero as the last one does before it. */
        void refuse(double at) {
            if (atLast > 0) {
                high = at;
                atHigh = -atLow;
            } else {
                low = at;
                atLow = -atHigh;
            }
        }

        boolean narrow(double width) {
            return high - low <= width;
        }

        double next() {
            if (!Double.isNaN(low) && !Double.isNaN(high)) {
                double share = Math.max(0.001, Math.min(0.999, atLow / (atLow - atHigh)));
                return low + (high - low) * (++count % 4 == 3 ? 0.5 : share);
            }
            double stride = first;
            if (!Double.isNaN(before)) {
                double done = Math.abs(last - before);
                double line = BEYOND_LINE * atLast * (last - before) / (atBefore - atLast);
                stride = line * atLast > 0 ? Math.max(2 * done, Math.min(50 * done, Math.abs(line))) : 8 * done;
            }
            return last + Math.copySign(stride, atLast);
        }
    }

    /** Gives a cavity another enthalpy, at its pressure or at one where it can have it. */
    private boolean place(Iterate x, Iterate trial, double h) {
        for (int n = 0; n < 16; n++) {
            double p = x.pressure[i] * Math.exp((n % 2 == 0 ? 0.5 : -0.5) * n);
            if (!(p > net.lowestPressure && p < net.highestPressure)) {
                continue;
            }
            trial.copyFrom(x);
            trial.set(i, p, h, x.fraction[i]);
            try {
                trial.evaluate();
                return true;
            } catch (PropertyException e) {
                // There may be one at a higher or a lower pressure.
            }
        }
        return false;
    }
}
