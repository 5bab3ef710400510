package purgewright.figure;

import java.util.Locale;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.sealflow.model.Case;

/** What a fluid looks like: a hue of the theme and a hatch that reads without colour. A drawing aid, never a judgement of hazard. */
public enum FluidLook {
    /** Dots. */
    OXIDIZER,
    /** Slanted lines. */
    FUEL,
    /** Crossed lines. */
    HOT_GAS,
    /** Level lines. */
    PURGE,
    /** Plain. */
    AIR,
    /** Upright lines. */
    OTHER;

    private static final Set<String> OXIDIZERS = Set.of("oxygen", "lox", "gox", "nitrous oxide", "n2o");
    private static final Set<String> FUELS = Set.of(
            "methane",
            "lch4",
            "lng",
            "hydrogen",
            "lh2",
            "parahydrogen",
            "dodecane",
            "n-dodecane",
            "kerosene",
            "rp-1",
            "ethanol",
            "isopropanol",
            "propane",
            "ethane",
            "ammonia",
            "carbon monoxide");
    private static final Set<String> PURGES =
            Set.of("helium", "ghe", "nitrogen", "gn2", "argon", "neon", "carbon dioxide");

    /** Look of a stream, by what it is made of. */
    public static FluidLook of(StreamDefinition stream) {
        if (stream instanceof StreamDefinition.Single single) {
            return ofFluid(single.fluid());
        }
        if (stream instanceof StreamDefinition.Mix mix) {
            String most = mix.fractions().entrySet().stream()
                    .max(Map.Entry.comparingByValue())
                    .map(Map.Entry::getKey)
                    .orElse("");
            boolean air =
                    mix.fractions().containsKey("nitrogen") && mix.fractions().containsKey("oxygen");
            return air ? AIR : ofFluid(most);
        }
        return HOT_GAS;
    }

    /** Look of the stream of that name in the case. */
    public static FluidLook of(Case model, String stream) {
        for (StreamDefinition each : model.streams()) {
            if (each.name().equals(stream)) {
                return of(each);
            }
        }
        return AIR;
    }

    private static FluidLook ofFluid(String fluid) {
        String name = fluid.toLowerCase(Locale.ROOT);
        if (OXIDIZERS.contains(name)) {
            return OXIDIZER;
        }
        if (FUELS.contains(name)) {
            return FUEL;
        }
        if (PURGES.contains(name)) {
            return PURGE;
        }
        return name.equals("air") ? AIR : OTHER;
    }
}
