package purgewright.sealflow.campaign;

import java.util.Arrays;
import java.util.List;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.supply.BottleState;
import purgewright.sealflow.supply.Bottles;

/**
 * How much of what a bank holds one attempt can use: gas cools as it is drawn, so that a bank drawn quickly reaches its least
 * pressure with more gas left in it than one drawn slowly. Tabled once from the bottles' own equations at the attempt's mean flow;
 * between attempts gas and walls come back to the surroundings. Immutable.
 */
public final class BankBook {
    private static final int POINTS = 24;

    private final List<Bottles> banks;
    private final double least;
    private final double air;
    private final double[][] mass;
    private final double[][] usable;

    /**
     * @param banks in the order in which they are used
     * @param least usable pressure, Pa
     * @param meanFlow of an attempt, kg/s
     * @param air temperature of the surroundings, K
     */
    public BankBook(List<Bottles> banks, double least, double meanFlow, double air) {
        this.banks = List.copyOf(banks);
        this.least = least;
        this.air = air;
        mass = new double[banks.size()][];
        usable = new double[banks.size()][];
        for (int b = 0; b < banks.size(); b++) {
            table(b, meanFlow);
        }
    }

    private void table(int b, double meanFlow) {
        Bottles bank = banks.get(b);
        // Equal banks share a table.
        for (int other = 0; other < b; other++) {
            if (banks.get(other).equals(bank)) {
                mass[b] = mass[other];
                usable[b] = usable[other];
                return;
            }
        }
        double empty = bank.held(Math.min(least, bank.pressure()), air);
        double full = bank.filling();
        mass[b] = new double[POINTS];
        usable[b] = new double[POINTS];
        for (int k = 0; k < POINTS; k++) {
            mass[b][k] = empty + (full - empty) * k / (POINTS - 1);
            usable[b][k] = k == 0 ? 0 : drawable(bank, bank.settledMass(mass[b][k], air), meanFlow);
        }
    }

    /** Gas that can be drawn at a flow until the pressure is down, kg. */
    private double drawable(Bottles bank, BottleState from, double flow) {
        if (from.pressure() <= least || !(flow > 0)) {
            return from.pressure() <= least ? 0 : from.mass() - bank.held(least, air);
        }
        // Drawn in hundredths of what is there; the last one is cut where the pressure falls through the least.
        double share = from.mass() / 100;
        BottleState now = from;
        double drawn = 0;
        for (int n = 0; n < 99; n++) {
            BottleState next;
            try {
                next = bank.draw(now, flow, flow, share / flow, air).state();
            } catch (IllegalArgumentException | PropertyException e) {
                return drawn;
            }
            if (next.pressure() < least) {
                return drawn + share * (now.pressure() - least) / (now.pressure() - next.pressure());
            }
            drawn += share;
            now = next;
        }
        return drawn;
    }

    /** The banks. */
    public List<Bottles> banks() {
        return banks;
    }

    /** Least usable pressure, Pa. */
    public double least() {
        return least;
    }

    /** Gas in each full bank, kg. */
    public double[] full() {
        return banks.stream().mapToDouble(Bottles::filling).toArray();
    }

    /** Gas that one attempt can use of a settled bank, kg. */
    public double usable(int bank, double held) {
        double[] x = mass[bank];
        double[] y = usable[bank];
        if (held <= x[0]) {
            return 0;
        }
        if (held >= x[POINTS - 1]) {
            return y[POINTS - 1];
        }
        double at = (held - x[0]) / (x[POINTS - 1] - x[0]) * (POINTS - 1);
        int k = Math.min(POINTS - 2, (int) at);
        return y[k] + (at - k) * (y[k + 1] - y[k]);
    }

    /** Gas that one attempt can use of all banks, one after the other, kg. */
    public double usable(double[] held) {
        double sum = 0;
        for (int b = 0; b < held.length; b++) {
            sum += usable(b, held[b]);
        }
        return sum;
    }

    /**
     * Draws gas from the banks in order, each down to its usable share. What is drawn comes off {@code held}.
     *
     * @return what could not be had, kg; 0 when there was enough
     */
    public double draw(double[] held, double gas) {
        double rest = gas;
        for (int b = 0; b < held.length && rest > 0; b++) {
            double take = Math.min(rest, usable(b, held[b]));
            held[b] -= take;
            rest -= take;
        }
        return rest;
    }

    /** Number of the bank of which least can be used. */
    public int emptiest(double[] held) {
        int worst = 0;
        for (int b = 1; b < held.length; b++) {
            if (usable(b, held[b]) / banks.get(b).number()
                    < usable(worst, held[worst]) / banks.get(worst).number()) {
                worst = b;
            }
        }
        return worst;
    }

    /** Settled pressures, Pa. */
    public List<Double> pressures(double[] held) {
        Double[] out = new Double[held.length];
        for (int b = 0; b < held.length; b++) {
            out[b] = banks.get(b).settledMass(held[b], air).pressure();
        }
        return List.copyOf(Arrays.asList(out));
    }

    /** Least settled pressure of the first bank that gives an amount in one attempt, Pa; NaN when even a full one does not. */
    public double startPressure(double gas) {
        double low = mass[0][0];
        double high = mass[0][POINTS - 1];
        if (usable(0, high) < gas) {
            return Double.NaN;
        }
        for (int n = 0; n < 60 && high - low > 1e-9 * high; n++) {
            double middle = (low + high) / 2;
            if (usable(0, middle) >= gas) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return banks.get(0).settledMass(high, air).pressure();
    }
}
