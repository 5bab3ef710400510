package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.PassageTypes;

/**
 * Random networks of the product's own passages and fluids: 2 to 30 free cavities, two to four boundaries between 1 kPa and 60 MPa
 * inside each fluid's range, clearances from 1 um to 1 mm, mixtures and burnt gas, some discs. Invented, every one.
 */
final class RealNetworks {
    private static final List<StreamDefinition> STREAMS = List.of(
            new StreamDefinition.Single("helium", "helium"),
            new StreamDefinition.Single("nitrogen", "nitrogen"),
            new StreamDefinition.Single("argon", "argon"),
            new StreamDefinition.Single("oxygen", "oxygen"),
            new StreamDefinition.Single("methane", "methane"),
            new StreamDefinition.Single("hydrogen", "parahydrogen"),
            new StreamDefinition.Single("kerosene", "n-dodecane"),
            new StreamDefinition.Single("ethanol", "ethanol"),
            new StreamDefinition.Single("water", "water"),
            new StreamDefinition.Mix("air-like", Map.of("nitrogen", 0.79, "oxygen", 0.21), true),
            new StreamDefinition.Burn("burnt", "methane", "oxygen", 0.4, 6e6, 120, 95, false));

    private static final StreamMixer MIXER = Engines.embedded().mixer(STREAMS);

    static boolean discs = !Boolean.getBoolean("noDiscs");
    static boolean valves = !Boolean.getBoolean("noValves");
    static boolean gases = Boolean.getBoolean("gases");
    /** One cavity in three shares a wall with another. */
    static boolean walls;
    /** No rotor turns. */
    static boolean still = Boolean.getBoolean("noSpin");

    private RealNetworks() {}

    private static double log(Random r, double low, double high) {
        return Math.exp(Math.log(low) + r.nextDouble() * Math.log(high / low));
    }

    /** A network; the same for the same seed. */
    static Case draw(long seed) {
        Random r = new Random(seed);
        int free = 2 + r.nextInt(29);
        int bounds = 2 + r.nextInt(3);
        Rotor rotor = rotor(r.nextInt(4) == 0 || still ? 0 : 200 + 3800 * r.nextDouble());
        List<StreamDefinition> streams = new ArrayList<>();
        List<Cavity> cavities = new ArrayList<>();
        for (int b = 0; b < bounds; b++) {
            int k = gases ? new int[] {0, 1, 2, 9, 10}[r.nextInt(5)] : r.nextInt(STREAMS.size());
            if (!streams.contains(STREAMS.get(k))) {
                streams.add(STREAMS.get(k));
            }
            cavities.add(boundary("bound " + b, k, r));
        }
        Random masonry = new Random(~seed);
        for (int i = 0; i < free; i++) {
            Cavity.Wall shared = walls && i > 0 && masonry.nextInt(3) == 0
                    ? new Cavity.Wall(log(masonry, 1e-2, 10), Double.NaN, "cavity " + masonry.nextInt(i))
                    : null;
            boolean spins = rotor.speed() != 0 && r.nextInt(6) == 0 && discs;
            double outer = 0.03 + 0.06 * r.nextDouble();
            cavities.add(new Cavity(
                    "cavity " + i,
                    Role.OTHER,
                    null,
                    Double.NaN,
                    Double.NaN,
                    Double.NaN,
                    spins ? outer * (0.7 + 0.3 * r.nextDouble()) : Double.NaN,
                    Double.NaN,
                    spins ? new Cavity.Disc(0.3 * outer, outer, 0.05 * outer) : null,
                    // Where little flows, only a wall carries a disc's heat away.
                    spins ? new Cavity.Wall(200, 300, null) : shared,
                    Double.NaN));
        }
        List<PassageSpec> passages = new ArrayList<>();
        for (int i = bounds; i < cavities.size(); i++) {
            passages.add(passage(passages.size(), cavities.get(r.nextInt(i)), cavities.get(i), rotor, r));
        }
        int more = bounds + r.nextInt(free + 2);
        for (int i = 0; i < more; i++) {
            int a = r.nextInt(cavities.size());
            int b = r.nextInt(cavities.size());
            if (a != b) {
                passages.add(passage(passages.size(), cavities.get(a), cavities.get(b), rotor, r));
            }
        }
        return new Case(
                Map.of("title", "random network " + seed),
                new Case.Surroundings(101325, 288.15),
                rotor,
                streams,
                cavities,
                passages,
                List.of(),
                Map.of(),
                Map.of());
    }

    private static Rotor rotor(double speed) {
        return new Rotor(speed, 0, 0, 0, 0, 0, 0, List.of());
    }

    /** A state inside the fluid's range, above the triple temperature, not solid. */
    private static Cavity boundary(String name, int stream, Random r) {
        Fluid fluid = MIXER.stream(stream);
        double cold = 60;
        double hot = 900;
        double most = 60e6;
        if (STREAMS.get(stream) instanceof StreamDefinition.Single s) {
            PureFluid pure = Engines.embedded().pure(s.fluid());
            cold = 1.02 * pure.tripleTemperature();
            hot = Math.min(1000, 0.98 * pure.publishedMaximumTemperature());
            most = Math.min(most, pure.publishedMaximumPressure());
        } else if (STREAMS.get(stream) instanceof StreamDefinition.Burn) {
            cold = 500;
            hot = 1200;
        }
        while (true) {
            double p = log(r, 1e3, most);
            double t = cold + (hot - cold) * r.nextDouble();
            if (gases) {
                t = Math.max(250, t);
            }
            try {
                FluidState state = fluid.atPressureTemperature(p, t);
                if (!state.extrapolated() || !(STREAMS.get(stream) instanceof StreamDefinition.Single)) {
                    return new Cavity(
                            name,
                            Role.OTHER,
                            STREAMS.get(stream).name(),
                            p,
                            t,
                            Double.NaN,
                            Double.NaN,
                            Double.NaN,
                            null,
                            null,
                            Double.NaN);
                }
            } catch (PropertyException solid) {
                continue;
            }
        }
    }

    private static PassageSpec passage(int number, Cavity from, Cavity to, Rotor rotor, Random r) {
        while (true) {
            Map<String, Object> f = new LinkedHashMap<>();
            double clearance = Double.NaN;
            double radius = Double.NaN;
            double c = log(r, 1e-6, 1e-3);
            double shaft = 0.01 + 0.09 * r.nextDouble();
            double bore = log(r, 2e-4, 3e-2);
            int kind = r.nextInt(16);
            if (kind == 4 && !valves) {
                kind = 0;
            }
            String type =
                    switch (kind) {
                        case 0, 1 -> {
                            f.put("diameter", bore);
                            f.put("thickness", bore * r.nextDouble());
                            yield "orifice";
                        }
                        case 2, 3 -> {
                            f.put("diameter", bore);
                            f.put("length", log(r, 0.05, 10));
                            f.put("loss coefficient", 5 * r.nextDouble());
                            yield "line";
                        }
                        case 4 -> {
                            f.put("diameter", bore);
                            f.put("cracking pressure", r.nextBoolean() ? 0 : log(r, 1e3, 1e5));
                            yield "check valve";
                        }
                        case 5, 6 -> {
                            clearance = c;
                            radius = shaft;
                            f.put("teeth", (double) (1 + r.nextInt(12)));
                            f.put("pitch", 0.001 + 0.004 * r.nextDouble());
                            f.put("tip", 0.0002);
                            f.put("arrangement", new String[] {"straight", "stepped", "interlocking"}[r.nextInt(3)]);
                            yield "labyrinth";
                        }
                        case 7 -> {
                            clearance = c;
                            radius = shaft;
                            f.put("length", log(r, 1e-3, 5e-2));
                            f.put("eccentricity", r.nextDouble());
                            yield "bushing";
                        }
                        case 8, 9 -> {
                            clearance = c;
                            radius = shaft;
                            f.put("length", log(r, 1e-3, 3e-2));
                            yield "floating ring";
                        }
                        case 10 -> {
                            f.put("inner radius", shaft);
                            f.put("outer radius", shaft * (1.05 + 0.2 * r.nextDouble()));
                            f.put("gap", Math.min(c, 1e-4));
                            f.put("from at", r.nextBoolean() ? "outer" : "inner");
                            yield "face";
                        }
                        case 11 -> {
                            radius = shaft;
                            f.put("segments", (double) (3 + r.nextInt(6)));
                            f.put("pad gap", Math.min(c, 2e-5));
                            f.put("joint area", log(r, 1e-8, 1e-6));
                            yield "segmented ring";
                        }
                        case 12 -> {
                            radius = shaft;
                            f.put("effective clearance", c);
                            yield "brush";
                        }
                        case 13 -> {
                            radius = shaft;
                            f.put("gap", c);
                            f.put("overlap", 0.002);
                            yield "rim";
                        }
                        case 14 -> {
                            f.put("number", (double) (1 + r.nextInt(20)));
                            f.put("diameter", 0.2 * bore);
                            yield "holes";
                        }
                        default -> {
                            f.put("diameter", bore);
                            yield r.nextBoolean() ? "nozzle" : "valve";
                        }
                    };
            PassageSpec spec = new PassageSpec(
                    "passage " + number,
                    from.name(),
                    to.name(),
                    type,
                    1 + r.nextInt(3),
                    radius,
                    clearance,
                    Double.NaN,
                    Double.NaN,
                    1,
                    Double.NaN,
                    false,
                    new HashMap<>(f));
            try {
                PassageTypes.find(type)
                        .orElseThrow()
                        .build(spec, new Conditions(rotor.speed(), clearance, Conditions.Bound.NOMINAL));
                return spec;
            } catch (IllegalArgumentException refused) {
                continue; // a geometry that no model takes
            }
        }
    }
}
