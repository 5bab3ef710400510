package purgewright.fluids;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import purgewright.fluids.phase.EmbeddedFluid;

/** The pure fluids that the embedded equations cover, their names and aliases. Each fluid is loaded once, when it is first asked for. */
final class FluidLibrary {
    private static final List<String> NAMES = List.of(
            "ammonia",
            "argon",
            "carbon-dioxide",
            "carbon-monoxide",
            "ethanol",
            "helium",
            "hydrogen",
            "methane",
            "n-dodecane",
            "neon",
            "nitrogen",
            "oxygen",
            "parahydrogen",
            "propane",
            "water");

    private static final String KEROSENE =
            "n-dodecane stands in for kerosene: its properties are those of one alkane, not of a fuel blend";
    private static final String NATURAL_GAS =
            "methane stands in for liquefied natural gas, which also holds ethane, propane and nitrogen";
    private static final String LIQUID_HYDROGEN =
            "liquid hydrogen is taken as parahydrogen, its equilibrium form at 20 K; gas from the works is normal hydrogen";

    private record Alias(String fluid, String remark) {}

    private static final Map<String, Alias> ALIASES = Map.ofEntries(
            Map.entry("he", new Alias("helium", "")),
            Map.entry("ghe", new Alias("helium", "")),
            Map.entry("lhe", new Alias("helium", "")),
            Map.entry("helium4", new Alias("helium", "")),
            Map.entry("n2", new Alias("nitrogen", "")),
            Map.entry("gn2", new Alias("nitrogen", "")),
            Map.entry("ln2", new Alias("nitrogen", "")),
            Map.entry("gan", new Alias("nitrogen", "")),
            Map.entry("lin", new Alias("nitrogen", "")),
            Map.entry("o2", new Alias("oxygen", "")),
            Map.entry("lox", new Alias("oxygen", "")),
            Map.entry("gox", new Alias("oxygen", "")),
            Map.entry("lo2", new Alias("oxygen", "")),
            Map.entry("go2", new Alias("oxygen", "")),
            Map.entry("h2", new Alias("hydrogen", "")),
            Map.entry("gh2", new Alias("hydrogen", "")),
            Map.entry("normalhydrogen", new Alias("hydrogen", "")),
            Map.entry("nhydrogen", new Alias("hydrogen", "")),
            Map.entry("lh2", new Alias("parahydrogen", LIQUID_HYDROGEN)),
            Map.entry("ph2", new Alias("parahydrogen", "")),
            Map.entry("phydrogen", new Alias("parahydrogen", "")),
            Map.entry("ch4", new Alias("methane", "")),
            Map.entry("lch4", new Alias("methane", "")),
            Map.entry("gch4", new Alias("methane", "")),
            Map.entry("lng", new Alias("methane", NATURAL_GAS)),
            Map.entry("naturalgas", new Alias("methane", NATURAL_GAS)),
            Map.entry("ar", new Alias("argon", "")),
            Map.entry("gar", new Alias("argon", "")),
            Map.entry("lar", new Alias("argon", "")),
            Map.entry("h2o", new Alias("water", "")),
            Map.entry("steam", new Alias("water", "")),
            Map.entry("co2", new Alias("carbon-dioxide", "")),
            Map.entry("co", new Alias("carbon-monoxide", "")),
            Map.entry("ne", new Alias("neon", "")),
            Map.entry("nh3", new Alias("ammonia", "")),
            Map.entry("c3h8", new Alias("propane", "")),
            Map.entry("npropane", new Alias("propane", "")),
            Map.entry("c2h5oh", new Alias("ethanol", "")),
            Map.entry("c2h6o", new Alias("ethanol", "")),
            Map.entry("dodecane", new Alias("n-dodecane", "")),
            Map.entry("c12h26", new Alias("n-dodecane", "")),
            Map.entry("kerosene", new Alias("n-dodecane", KEROSENE)),
            Map.entry("kerosine", new Alias("n-dodecane", KEROSENE)),
            Map.entry("rp1", new Alias("n-dodecane", KEROSENE)),
            Map.entry("rg1", new Alias("n-dodecane", KEROSENE)),
            Map.entry("t1", new Alias("n-dodecane", KEROSENE)),
            Map.entry("jeta", new Alias("n-dodecane", KEROSENE)),
            Map.entry("jeta1", new Alias("n-dodecane", KEROSENE)),
            Map.entry("jp8", new Alias("n-dodecane", KEROSENE)));

    /** Fluids without an equation here, and the one that is nearest: suggested, never taken in their place. */
    private static final Map<String, String> NEAREST = Map.of(
            "isopropanol", "ethanol",
            "isopropylalcohol", "ethanol",
            "2propanol", "ethanol",
            "ipa", "ethanol",
            "methanol", "ethanol",
            "ethane", "propane");

    private static final Map<String, EmbeddedFluid> LOADED = new ConcurrentHashMap<>();

    private FluidLibrary() {}

    static List<String> names() {
        return NAMES;
    }

    static EmbeddedFluid fluid(String name) {
        return LOADED.computeIfAbsent(resolve(name).fluid(), EmbeddedFluid::load);
    }

    static String remark(String name) {
        return resolve(name).remark();
    }

    private static Alias resolve(String name) {
        String plain = plain(name);
        for (String known : NAMES) {
            if (plain.equals(plain(known))) {
                return new Alias(known, "");
            }
        }
        Alias alias = ALIASES.get(plain);
        if (alias == null) {
            throw new PropertyException(
                    PropertyException.Key.UNKNOWN_FLUID, Map.of("name", name, "suggestion", suggestion(plain)));
        }
        return alias;
    }

    /** Lower case without spaces, hyphens and the like, so that "Carbon dioxide" and "RP-1" are found. */
    private static String plain(String name) {
        StringBuilder plain = new StringBuilder();
        for (char c : name.toLowerCase(Locale.ROOT).toCharArray()) {
            if (Character.isLetterOrDigit(c)) {
                plain.append(c);
            }
        }
        return plain.toString();
    }

    /** The nearest name or alias, by the number of letters to change; empty when nothing is near. */
    private static String suggestion(String plain) {
        String nearest = NEAREST.get(plain);
        if (nearest != null) {
            return nearest;
        }
        List<String> candidates = new ArrayList<>(NAMES);
        candidates.addAll(ALIASES.keySet().stream().sorted().toList());
        String best = "";
        int least = Math.max(1, plain.length() / 3) + 1;
        for (String candidate : candidates) {
            int distance = distance(plain, plain(candidate));
            if (distance < least) {
                least = distance;
                best = candidate;
            }
        }
        return best;
    }

    private static int distance(String a, String b) {
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int cost = a.charAt(i - 1) == b.charAt(j - 1) ? diagonal : diagonal + 1;
                diagonal = row[j];
                row[j] = Math.min(cost, Math.min(row[j], row[j - 1]) + 1);
            }
        }
        return row[b.length()];
    }
}
