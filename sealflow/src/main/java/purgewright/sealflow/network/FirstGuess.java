package purgewright.sealflow.network;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;

/**
 * Where Newton starts when nobody knows better.
 *
 * <p>First ln p between the boundaries as if all passages were alike; then, a few times, the passages' own flows at that guess give
 * each a conductance, the network of these conductances gives new pressures, and every cavity gets the mixture and the enthalpy
 * of what flows in, from the highest pressure down.
 */
final class FirstGuess {
    private static final int SWEEPS = 5;

    private final Network net;
    private final BlockMatrix scalar;
    private final double[] surplus;

    FirstGuess(Network net) {
        this.net = net;
        int[] a = new int[net.links];
        int[] b = new int[net.links];
        for (int l = 0; l < net.links; l++) {
            a[l] = net.unknown[net.from[l]];
            b[l] = net.unknown[net.to[l]];
        }
        scalar = new BlockMatrix(net.cavityOf.length, 1, a, b);
        surplus = new double[net.cavityOf.length];
    }

    /** An evaluated iterate. */
    Iterate make() {
        Iterate x = new Iterate(net);
        double[] weight = new double[net.links];
        Arrays.fill(weight, 1);
        double[] p = new double[net.cavities];
        double[] logarithm = potentials(weight, i -> Math.log(net.boundaryState[i].pressure()));
        double[] m = new double[net.links];
        for (int i = 0; i < net.cavities; i++) {
            p[i] = net.fixed[i] ? net.boundaryState[i].pressure() : Math.exp(logarithm[i]);
        }
        for (int l = 0; l < net.links; l++) {
            m[l] = p[net.from[l]] - p[net.to[l]];
        }
        mix(x, p, m);
        Iterate good = null;
        for (int sweep = 0; sweep < SWEEPS; sweep++) {
            try {
                x.evaluate();
                if (good == null) {
                    good = new Iterate(net);
                }
                good.copyFrom(x);
            } catch (PropertyException e) {
                // Where a disc turns a liquid, the conductances can ask for pressures beyond any; the sweep before had
                // states. If there was none, Newton's first trial says so in words.
                if (good == null) {
                    return x;
                }
                good.evaluate();
                return good;
            }
            if (sweep == SWEEPS - 1) {
                break;
            }
            double largest = 0;
            for (int l = 0; l < net.links; l++) {
                if (!net.flowing[l]) {
                    continue;
                }
                m[l] = x.flow[l].massFlow();
                double drop = x.endFrom[l].pressure() - x.endTo[l].pressure();
                double c = Math.abs(m[l]) / Math.max(Math.abs(drop), 1e-6 * x.pressure[net.from[l]]);
                weight[l] = c;
                largest = Math.max(largest, c);
            }
            for (int l = 0; l < net.links; l++) {
                weight[l] = Math.max(weight[l], largest > 0 ? 1e-12 * largest : 1);
            }
            double[] next = pressures(weight, x);
            for (int i : net.cavityOf) {
                // Halfway in the logarithm: conductances of the old flows overshoot.
                double to = Math.max(net.lowestPressure, Math.min(net.highestPressure, next[i]));
                p[i] = sweep == 0 ? to : Math.sqrt(p[i] * to);
            }
            for (int l = 0; l < net.links; l++) {
                if (net.flowing[l]) {
                    double drop = p[net.from[l]] * x.endFrom[l].pressure() / x.pressure[net.from[l]]
                            - p[net.to[l]] * x.endTo[l].pressure() / x.pressure[net.to[l]];
                    m[l] = weight[l] * drop;
                }
            }
            mix(x, p, m);
        }
        return x;
    }

    private interface Value {
        double at(int cavity);
    }

    /** Values in free cavities that balance weight-times-difference over every link. */
    private double[] potentials(double[] weight, Value boundary) {
        scalar.clear();
        Arrays.fill(surplus, 0);
        double[] right = new double[net.cavityOf.length];
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            couple(net.from[l], net.to[l], weight[l], weight[l], right, boundary);
            couple(net.to[l], net.from[l], weight[l], weight[l], right, boundary);
        }
        return solved(right, boundary);
    }

    /** The same for pressures, with each passage seeing its ends at its own radius. */
    private double[] pressures(double[] weight, Iterate x) {
        scalar.clear();
        Arrays.fill(surplus, 0);
        double[] right = new double[net.cavityOf.length];
        Value boundary = i -> net.boundaryState[i].pressure();
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            double a = weight[l] * x.endFrom[l].pressure() / x.pressure[net.from[l]];
            double b = weight[l] * x.endTo[l].pressure() / x.pressure[net.to[l]];
            couple(net.from[l], net.to[l], a, b, right, boundary);
            couple(net.to[l], net.from[l], b, a, right, boundary);
        }
        return solved(right, boundary);
    }

    private void couple(int i, int j, double own, double other, double[] right, Value boundary) {
        int row = net.unknown[i];
        if (row < 0) {
            return;
        }
        if (net.unknown[j] >= 0) {
            scalar.add(row, net.unknown[j], 0, 0, -other);
        } else {
            surplus[row] += own;
            right[row] += other * boundary.at(j);
        }
    }

    private double[] solved(double[] right, Value boundary) {
        double[] result = new double[net.cavities];
        scalar.factorFlows(surplus);
        scalar.solve(right);
        for (int i = 0; i < net.cavities; i++) {
            result[i] = net.unknown[i] >= 0 ? right[net.unknown[i]] : net.fixed[i] ? boundary.at(i) : Double.NaN;
        }
        return result;
    }

    /** Mixtures and enthalpies of what flows in, from the highest pressure down. */
    private void mix(Iterate x, double[] p, double[] m) {
        Integer[] order = IntStream.of(net.cavityOf).boxed().toArray(Integer[]::new);
        Arrays.sort(order, Comparator.comparingDouble((Integer i) -> -p[i]).thenComparingInt(i -> i));
        boolean[] known = net.fixed.clone();
        double[][] y = new double[net.cavities][];
        double[] h = new double[net.cavities];
        double[] t = new double[net.cavities];
        for (int i = 0; i < net.cavities; i++) {
            if (net.fixed[i]) {
                y[i] = net.boundaryFractions[i];
                h[i] = net.boundaryState[i].enthalpy();
                t[i] = net.boundaryState[i].temperature();
            }
        }
        int left = order.length;
        // Second and later rounds reach cavities that only a higher one fed later; the last takes any neighbour at all.
        for (int round = 0; left > 0 && round < net.cavities + 2; round++) {
            for (int i : order) {
                if (known[i]) {
                    continue;
                }
                double inflow = 0;
                double[] sum = new double[net.streams];
                double heat = 0;
                double warmth = 0;
                for (int l = 0; l < net.links; l++) {
                    int other = net.from[l] == i ? net.to[l] : net.to[l] == i ? net.from[l] : -1;
                    if (other < 0 || !net.flowing[l] || !known[other]) {
                        continue;
                    }
                    double in = net.to[l] == i ? m[l] : -m[l];
                    double w = Math.max(in, round == 0 ? 0 : 1e-9 * Math.abs(in) + 1e-300);
                    if (w <= 0) {
                        continue;
                    }
                    inflow += w;
                    heat += w * h[other];
                    warmth += w * t[other];
                    for (int k = 0; k < net.streams; k++) {
                        sum[k] += w * y[other][k];
                    }
                }
                if (inflow > 0) {
                    for (int k = 0; k < net.streams; k++) {
                        sum[k] /= inflow;
                    }
                    y[i] = sum;
                    h[i] = heat / inflow;
                    t[i] = warmth / inflow;
                    known[i] = true;
                    left--;
                    h[i] = settle(x, i, p[i], h[i], t[i], sum);
                }
            }
        }
    }

    /** Sets the cavity; where no state has the mixed enthalpy at this pressure, the mixed temperature gives one. */
    private double settle(Iterate x, int i, double p, double h, double t, double[] y) {
        x.set(i, p, h, y);
        try {
            FluidState s = x.fluid[i].atPressureEnthalpy(p, h);
            x.state[i] = s;
            return h;
        } catch (PropertyException e) {
            try {
                double other = x.fluid[i].atPressureTemperature(p, t).enthalpy();
                x.set(i, p, other, y);
                return other;
            } catch (PropertyException again) {
                x.refusedAt = i;
                return h;
            }
        }
    }
}
