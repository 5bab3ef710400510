package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.unit.DidYouMean;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.hazard.studies.Distribution.StackPart;
import purgewright.hazard.studies.Distribution.StackShape;
import purgewright.hazard.studies.Distribution.Truncated;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.model.Case;

/**
 * One value of a case that is not known well.
 *
 * @param place JSON Pointer
 * @param kind of thing
 * @param dimension of the value
 * @param nominal value of the case, SI; where the case states none the distribution's median
 * @param distribution after truncation
 * @param cut probability that truncation took away
 * @param cutWords where it was cut and why; empty when it was not
 */
public record UncertainInput(
        String place,
        Kind kind,
        Dimension dimension,
        double nominal,
        Distribution distribution,
        double cut,
        String cutWords) {

    /** Key of the section of a case. */
    public static final String SECTION = "uncertain";

    private static final String CORRELATIONS = "correlations";

    /** Below this a cut is no more than the far tail of a bell curve and not worth a word. */
    private static final double WORTH_A_WORD = 1e-9;

    /** What a place stands for. */
    public enum Kind {
        /** A number of the case. */
        VALUE,
        /** End of a passage model's band. */
        MODEL_FORM,
        /** Constant error of an instrument's reading. */
        INSTRUMENT_ERROR
    }

    /** {@link Dimension#symbol} of the value. */
    public String unit() {
        return kind == Kind.MODEL_FORM ? "1" : dimension.symbol();
    }

    /**
     * The uncertain values of a case, in its order.
     *
     * @throws CaseException when there are none, or when one makes no sense
     */
    public static List<UncertainInput> of(CaseDocument document, Case model) {
        List<UncertainInput> out = new ArrayList<>();
        List<CaseProblem> problems = new ArrayList<>();
        Map<String, Map<?, ?>> stated = new LinkedHashMap<>();
        if (model.extras().get(SECTION) instanceof Map<?, ?> section) {
            section.forEach((place, value) -> {
                if (value instanceof Map<?, ?> fields) {
                    stated.put(String.valueOf(place), fields);
                }
            });
        }
        if (stated.isEmpty()) {
            problems.add(new CaseProblem(
                    "NOTHING_UNCERTAIN",
                    "/" + SECTION,
                    document.line("/" + SECTION),
                    0,
                    "the case names no value that is uncertain",
                    "for instance \"uncertain\": {\"/passages/NAME/clearance\": {\"distribution\": \"normal\", \"mean\": \"25 um\","
                            + " \"sigma\": \"3 um\"}}"));
        }
        stated.forEach((place, fields) -> {
            String at = "/" + SECTION + "/" + place.replace("~", "~0").replace("/", "~1");
            try {
                out.add(of(document, model, place, fields));
            } catch (IllegalArgumentException e) {
                problems.add(new CaseProblem(
                        "BAD_DISTRIBUTION", at, document.line(at), 0, place + ": " + e.getMessage(), ""));
            }
        });
        if (!problems.isEmpty()) {
            throw new CaseException(problems);
        }
        return List.copyOf(out);
    }

    private static UncertainInput of(CaseDocument document, Case model, String place, Map<?, ?> fields) {
        Distribution whole = distribution(fields);
        double low = number(fields, "truncate low", Double.NEGATIVE_INFINITY);
        double high = number(fields, "truncate high", Double.POSITIVE_INFINITY);
        if (whole instanceof Distribution.ModelForm) {
            return new UncertainInput(place, Kind.MODEL_FORM, Dimension.NUMBER, 0, whole, 0, "");
        }
        if (place.startsWith("/instruments/") && place.indexOf('/', 13) < 0) {
            return cut(place, Kind.INSTRUMENT_ERROR, dimensionOfError(document, place), 0, whole, low, high, low, high);
        }
        CaseDocument.Range range = document.range(place)
                .orElseThrow(() -> new IllegalArgumentException("there is no number at this place"));
        // A physical limit that is itself out of bounds is approached, never reached.
        double physicalLow = range.exclusive() ? Math.nextUp(range.minimum()) : range.minimum();
        return cut(
                place,
                Kind.VALUE,
                range.dimension(),
                nominal(document, model, place, range.dimension()),
                whole,
                Math.max(low, physicalLow),
                Math.min(high, range.maximum()),
                low,
                high);
    }

    private static UncertainInput cut(
            String place,
            Kind kind,
            Dimension dimension,
            double nominal,
            Distribution whole,
            double low,
            double high,
            double statedLow,
            double statedHigh) {
        Truncated cut = new Truncated(whole, low, high);
        boolean asTyped = low == Double.NEGATIVE_INFINITY && high == Double.POSITIVE_INFINITY;
        double share = asTyped ? 0 : Math.max(0, cut.cut());
        String words = "";
        if (share > WORTH_A_WORD) {
            boolean physical = (low != statedLow && whole.cumulative(low) > WORTH_A_WORD)
                    || (high != statedHigh && whole.cumulative(high) < 1 - WORTH_A_WORD);
            words = String.format(
                    Locale.ROOT,
                    "%.3g %% of the distribution lies outside %s and was cut away%s",
                    100 * share,
                    physical ? "what the place allows" : "the ends stated",
                    share > 0.05 && physical ? ": the distribution as typed does not fit this value" : "");
        }
        Distribution kept = share > 0 ? cut : whole;
        double centre = Double.isNaN(nominal) ? kept.quantile(0.5) : nominal;
        return new UncertainInput(place, kind, dimension, centre, kept, share, words);
    }

    private static double nominal(CaseDocument document, Case model, String place, Dimension dimension) {
        if (document.text(place).isEmpty()) {
            return Double.NaN;
        }
        try {
            return Units.parse(
                    document.text(place).get(), dimension, model.surroundings().pressure());
        } catch (UnitException e) {
            // A standard volume flow needs its gas: the median stands in for the nominal value.
            return Double.NaN;
        }
    }

    private static Dimension dimensionOfError(CaseDocument document, String place) {
        return switch (document.text(place + "/measures").orElse("")) {
            case "pressure", "pressure difference" -> Dimension.PRESSURE_DIFFERENCE;
            case "temperature" -> Dimension.TEMPERATURE_DIFFERENCE;
            case "flow" -> Dimension.MASS_FLOW;
            case "speed" -> Dimension.ANGULAR_SPEED;
            default -> Dimension.NUMBER;
        };
    }

    private static Distribution distribution(Map<?, ?> f) {
        double low = number(f, "low", Double.NaN);
        double high = number(f, "high", Double.NaN);
        return switch (String.valueOf(f.get("distribution"))) {
            case "uniform" -> new Distribution.Uniform(low, high);
            case "normal" -> new Distribution.Normal(number(f, "mean", Double.NaN), number(f, "sigma", Double.NaN));
            case "lognormal" ->
                new Distribution.LogNormal(number(f, "median", Double.NaN), number(f, "geometric sigma", Double.NaN));
            case "triangular" -> new Distribution.Triangular(low, number(f, "mode", Double.NaN), high);
            case "beta" ->
                new Distribution.Beta(low, high, number(f, "alpha", Double.NaN), number(f, "beta", Double.NaN));
            case "empirical" -> new Distribution.Empirical(numbers(f.get("values")));
            case "stack" -> new Distribution.Stack(parts(f.get("parts")));
            case "model form" ->
                new Distribution.ModelForm(number(f, "low share", 0.25), number(f, "high share", 0.25));
            default -> throw new IllegalArgumentException("no distribution is named");
        };
    }

    private static List<StackPart> parts(Object read) {
        List<StackPart> parts = new ArrayList<>();
        if (read instanceof List<?> list) {
            for (Object each : list) {
                if (each instanceof Map<?, ?> f) {
                    Object shape = f.get("shape");
                    parts.add(new StackPart(
                            String.valueOf(f.get("name")),
                            number(f, "low", Double.NaN),
                            number(f, "high", Double.NaN),
                            number(f, "factor", 1),
                            shape == null
                                    ? StackShape.NORMAL
                                    : StackShape.valueOf(String.valueOf(shape).toUpperCase(Locale.ROOT))));
                }
            }
        }
        return parts;
    }

    private static List<Double> numbers(Object read) {
        List<Double> out = new ArrayList<>();
        if (read instanceof List<?> list) {
            for (Object each : list) {
                if (each instanceof Number n) {
                    out.add(n.doubleValue());
                }
            }
        }
        return out;
    }

    private static double number(Map<?, ?> fields, String name, double fallback) {
        return fields.get(name) instanceof Number n ? n.doubleValue() : fallback;
    }

    /**
     * How the inputs go together.
     *
     * @throws CaseException for a place that is not uncertain, a pair stated twice, or an impossible set; the last offers the nearest
     */
    public static Copula copula(CaseDocument document, Case model, List<UncertainInput> inputs) {
        int n = inputs.size();
        double[][] ranks = new double[n][n];
        boolean[][] stated = new boolean[n][n];
        for (int i = 0; i < n; i++) {
            ranks[i][i] = 1;
        }
        List<String> places = inputs.stream().map(UncertainInput::place).toList();
        List<CaseProblem> problems = new ArrayList<>();
        List<?> list = model.extras().get(CORRELATIONS) instanceof List<?> l ? l : List.of();
        for (int k = 0; k < list.size(); k++) {
            String at = "/" + CORRELATIONS + "/" + k;
            Map<?, ?> fields = list.get(k) instanceof Map<?, ?> m ? m : Map.of();
            double coefficient = number(fields, "coefficient", 0);
            List<Integer> members = new ArrayList<>();
            for (Object each : fields.get("between") instanceof List<?> between ? between : List.of()) {
                String place = String.valueOf(each);
                int index = places.indexOf(place);
                if (index < 0) {
                    problems.add(new CaseProblem(
                            "NOT_UNCERTAIN",
                            at,
                            document.line(at),
                            0,
                            place + " is correlated but has no distribution under \"uncertain\"",
                            DidYouMean.nearest(place, places)
                                    .map(near -> "did you mean \"" + near + "\"?")
                                    .orElse("")));
                } else if (members.contains(index)) {
                    problems.add(new CaseProblem(
                            "CONFLICT", at, document.line(at), 0, place + " is correlated with itself", ""));
                } else {
                    members.add(index);
                }
            }
            for (int i : members) {
                for (int j : members) {
                    if (i < j) {
                        if (stated[i][j] && ranks[i][j] != coefficient) {
                            problems.add(new CaseProblem(
                                    "CONFLICT",
                                    at,
                                    document.line(at),
                                    0,
                                    places.get(i) + " and " + places.get(j) + " have two different correlations",
                                    "keep one of them"));
                        }
                        stated[i][j] = true;
                        ranks[i][j] = coefficient;
                        ranks[j][i] = coefficient;
                    }
                }
            }
        }
        if (problems.isEmpty()) {
            try {
                return Copula.of(ranks);
            } catch (Copula.Impossible e) {
                problems.add(new CaseProblem(
                        "IMPOSSIBLE_CORRELATIONS",
                        "/" + CORRELATIONS,
                        document.line("/" + CORRELATIONS),
                        0,
                        e.getMessage(),
                        "the nearest that is possible: " + pairs(places, e.nearest(), ranks)));
            }
        }
        throw new CaseException(problems);
    }

    private static String pairs(List<String> places, double[][] nearest, double[][] stated) {
        List<String> out = new ArrayList<>();
        for (int i = 0; i < places.size(); i++) {
            for (int j = i + 1; j < places.size(); j++) {
                if (stated[i][j] != 0 || Math.abs(nearest[i][j]) >= 5e-5) {
                    out.add(String.format(Locale.ROOT, "%s with %s %.4f", places.get(i), places.get(j), nearest[i][j]));
                }
            }
        }
        return String.join("; ", out);
    }
}
