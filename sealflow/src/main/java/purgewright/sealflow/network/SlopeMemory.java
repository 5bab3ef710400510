package purgewright.sealflow.network;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What a solve knew about its passages' slopes in the end: a solve of a similar case starts with them and is spared the differences,
 * which cost as much as all its iterations. Never part of the answer: a solve from here ends where any other ends, to the closure of
 * the balances, and two memories are equal, so that they play no part when results are compared. Immutable.
 */
public final class SlopeMemory {
    private final List<String> streams;
    private final Map<String, Slopes> passages;
    private final Map<String, double[]> temperature;

    /** Share of a pressure within which an end counts as unchanged. */
    private static final double UNCHANGED = 1e-6;

    /** How many times larger or smaller a flow may have become for its slopes to be taken along. */
    private static final double ALIKE = 5;

    /** Of one passage, the cavities it joins, and what flowed there between which pressures. */
    private record Slopes(
            String from,
            String to,
            double[] flow,
            double[] heat,
            double massFlow,
            double fromPressure,
            double toPressure) {
        /**
         * What the slopes of the flow are multiplied by: between unchanged pressures another clearance passes more or less, and its slopes
         * are more or less in the same proportion. Where a pressure has changed they are not.
         */
        double growth(Iterate x, int link) {
            double ratio = x.massFlow[link] / massFlow;
            boolean unchanged = Math.abs(x.endFrom[link].pressure() - fromPressure) < UNCHANGED * fromPressure
                    && Math.abs(x.endTo[link].pressure() - toPressure) < UNCHANGED * toPressure;
            return unchanged && ratio > 1 / ALIKE && ratio < ALIKE ? ratio : 1;
        }
    }

    private SlopeMemory(List<String> streams, Map<String, Slopes> passages, Map<String, double[]> temperature) {
        this.streams = streams;
        this.passages = passages;
        this.temperature = temperature;
    }

    static SlopeMemory of(Iterate x, double[][] flow, double[][] heat, double[][] temperature) {
        Network net = x.net;
        Map<String, Slopes> passages = new LinkedHashMap<>();
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                passages.put(
                        net.model.passages().get(net.specOf[l]).name(),
                        new Slopes(
                                net.cavity[net.from[l]].name(),
                                net.cavity[net.to[l]].name(),
                                flow[l].clone(),
                                heat[l].clone(),
                                x.massFlow[l],
                                x.endFrom[l].pressure(),
                                x.endTo[l].pressure()));
            }
        }
        Map<String, double[]> warmth = new LinkedHashMap<>();
        for (int i : net.cavityOf) {
            warmth.put(net.cavity[i].name(), temperature[i].clone());
        }
        return new SlopeMemory(streams(net), passages, warmth);
    }

    private static List<String> streams(Network net) {
        String[] names = new String[net.streams];
        for (int k = 0; k < net.streams; k++) {
            names[k] = net.mixer.name(k);
        }
        return List.of(names);
    }

    /** Fills the slopes of a network's flowing passages and free cavities; false when not all of them are known. */
    boolean recall(Iterate x, double[][] flow, double[][] heat, double[][] temperatureSlope) {
        Network net = x.net;
        if (!streams.equals(streams(net))) {
            return false;
        }
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            Slopes known = passages.get(net.model.passages().get(net.specOf[l]).name());
            if (known == null
                    || !known.from().equals(net.cavity[net.from[l]].name())
                    || !known.to().equals(net.cavity[net.to[l]].name())) {
                return false;
            }
            double growth = known.growth(x, l);
            for (int n = 0; n < flow[l].length; n++) {
                flow[l][n] = growth * known.flow()[n];
            }
            System.arraycopy(known.heat(), 0, heat[l], 0, heat[l].length);
        }
        for (int i : net.cavityOf) {
            double[] known = temperature.get(net.cavity[i].name());
            if (known == null) {
                return false;
            }
            System.arraycopy(known, 0, temperatureSlope[i], 0, known.length);
        }
        return true;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof SlopeMemory;
    }

    @Override
    public int hashCode() {
        return 1;
    }

    @Override
    public String toString() {
        return "slopes of " + passages.size() + " passages";
    }
}
