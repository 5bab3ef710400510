package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.unit.DidYouMean;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.FitResult.Edit;
import purgewright.hazard.service.FitResult.Parameter;
import purgewright.hazard.service.FitResult.Point;
import purgewright.hazard.service.FitResult.Suspect;
import purgewright.sealflow.calibration.NetworkFit;
import purgewright.sealflow.calibration.NetworkFit.Quantity;
import purgewright.sealflow.calibration.PassageFit;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.casefile.DataTable;
import purgewright.sealflow.casefile.DataTable.Column;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/**
 * From measured data to clearances and flow factors, and what the verdict is then. Threads may share one service; an interrupt ends
 * the work early.
 *
 * <p>One passage: columns {@code upstream pressure}, {@code downstream pressure}, {@code temperature}, {@code flow}, and where wanted
 * {@code speed} and {@code flow uncertainty}. Network: one row a test point; columns named by places of the case; what is a boundary
 * is set, what is solved for is fitted; a column {@code phase} names the phase whose boundaries hold otherwise.
 */
public final class FitService {
    private static final double CONFIDENCE = 0.95;

    /** Robust distance beyond which a point is named: 3.5 (Iglewicz and Hoaglin [from memory]). */
    private static final double OUTLIER = 3.5;

    /** Median of absolute deviations of a normal distribution, as a share of its standard deviation. */
    private static final double MAD = 0.6745;

    /** A seal of which the data take away less than this share of the prior's uncertainty is not observable. */
    private static final double OBSERVABLE = 0.3;

    private static final double COUPLED = 0.9;

    /** Readings of one passage that are computed each; more are put together where they are alike. */
    private static final int MOST_READINGS = 2000;

    /** Test points of a network that are solved each. */
    private static final int MOST_POINTS = 40;

    /** Boundaries alike within less than this make a test point [invented]. */
    private static final double COARSE = 0.05;

    /** Outlying lines of a long table that are named. */
    private static final int NAMED_LINES = 5;

    /** Relative step of a slope. */
    private static final double STEP = 1e-3;

    private final PropertyEngine engine;
    private final NetworkSolver solver;

    /** A service on the network solver. */
    public FitService(PropertyEngine engine) {
        this.engine = engine;
        this.solver = new NetworkSolver(engine, SolverSettings.DEFAULT);
    }

    /**
     * Fits.
     *
     * @throws CaseException when the data lack a column or name what the case does not have
     */
    public FitResult fit(CaseDocument document, DataTable data, FitSettings settings, Progress progress) {
        Case whole = document.toCase(engine);
        FitResult fitted = settings.passage().isEmpty()
                ? network(document, whole, data, settings, progress)
                : passage(whole, data, settings, progress);
        if (!fitted.complete()) {
            return fitted;
        }
        progress.at(0.8, "verdicts");
        return judged(document, fitted, progress);
    }

    /**
     * The case with the fitted values set. Where it states such a value as uncertain, what was fitted takes the place of that too: normal about
     * the fitted value, its standard deviation from the 95 % interval; else a spread would go on drawing the drawing's values.
     */
    public static CaseDocument adopt(CaseDocument document, FitResult result) {
        CaseDocument out = document;
        for (Edit e : result.edits()) {
            out = out.with(e.place(), e.text());
            String at = uncertain(e.place());
            if (out.has(at)) {
                out = out.withJson(at, distribution(e, result));
            }
        }
        return out;
    }

    private static String uncertain(String place) {
        return "/uncertain/" + CaseEdits.escaped(place);
    }

    /** Normal about the fitted value: {@code sigma = (high - low) / (2 x 1.96)}. */
    private static String distribution(Edit e, FitResult result) {
        Parameter p = result.parameters().stream()
                .filter(x -> x.place().equals(e.place()))
                .findFirst()
                .orElseThrow();
        double sigma = (p.high() - p.low()) / (2 * NormalDistribution.of(0, 1).inverseCumulativeProbability(0.975));
        String typed = String.format(Locale.ROOT, "%.3g", "m".equals(p.unit()) ? 1e3 * sigma : sigma);
        return "m".equals(p.unit())
                ? "{\"distribution\": \"normal\", \"mean\": \"" + e.text() + "\", \"sigma\": \"" + typed + " mm\"}"
                : "{\"distribution\": \"normal\", \"mean\": " + e.text() + ", \"sigma\": " + typed + "}";
    }

    /** What {@link #adopt} changes beside the fitted values; a sentence each. */
    private static List<String> replaced(CaseDocument document, FitResult result) {
        List<String> out = new ArrayList<>(result.notes());
        for (Edit e : result.edits()) {
            if (document.has(uncertain(e.place()))) {
                out.add("The case states " + e.place()
                        + " as uncertain about its old value; the new case draws it from the fit instead: normal about "
                        + e.text() + ", as wide as the fit's interval.");
            }
        }
        return List.copyOf(out);
    }

    private FitResult judged(CaseDocument document, FitResult f, Progress progress) {
        try (CaseService service = new CaseService(engine, 1)) {
            CheckResult before = service.check(document, CheckSettings.DEFAULT, Progress.NONE);
            progress.at(0.9, "verdicts");
            CheckResult after = f.edits().isEmpty()
                    ? before
                    : service.check(adopt(document, f), CheckSettings.DEFAULT, Progress.NONE);
            progress.at(1, "done");
            return new FitResult(
                    true,
                    f.network(),
                    f.parameters(),
                    f.points(),
                    f.chiSquare(),
                    f.degrees(),
                    f.worn(),
                    before.verdict(),
                    before.verdictLine(),
                    after.verdict(),
                    after.verdictLine(),
                    f.edits(),
                    replaced(document, f));
        } catch (CancellationException e) {
            Thread.interrupted(); // the clearances are known, the verdicts are not
            return new FitResult(
                    false,
                    f.network(),
                    f.parameters(),
                    f.points(),
                    f.chiSquare(),
                    f.degrees(),
                    f.worn(),
                    f.before(),
                    f.beforeLine(),
                    f.after(),
                    f.afterLine(),
                    f.edits(),
                    f.notes());
        }
    }

    private static CaseException problem(String key, String place, String message, String suggestion) {
        return new CaseException(List.of(new CaseProblem(key, place, 0, 0, message, suggestion)));
    }

    // --- one passage
    // ------------------------------------------------------------------------------------------------

    private FitResult passage(Case whole, DataTable data, FitSettings settings, Progress progress) {
        PassageSpec spec = whole.passage(settings.passage());
        if (spec == null) {
            List<String> known =
                    whole.passages().stream().map(PassageSpec::name).toList();
            throw problem(
                    "UNKNOWN_PASSAGE",
                    "/passages",
                    "the case has no passage \"" + settings.passage() + "\"",
                    DidYouMean.nearest(settings.passage(), known)
                            .map(n -> "did you mean \"" + n + "\"?")
                            .orElse("one of " + String.join(", ", known)));
        }
        double share = Double.isNaN(settings.flowUncertainty())
                ? Criteria.of(whole.criteria()).get(Limit.FLOW_UNCERTAINTY)
                : settings.flowUncertainty();
        requireReadings(data);
        LongTable table = alike(data, null);
        List<PassageFit.Reading> readings = readings(whole, table.table(), settings, share);
        boolean clearance = settings.what() != FitSettings.What.FACTOR;
        boolean factor = settings.what() != FitSettings.What.CLEARANCE;
        int parameters = (clearance ? 1 : 0) + (factor ? 1 : 0);
        if (readings.size() < parameters) {
            throw problem(
                    "TOO_FEW",
                    data.name(),
                    readings.size() + " readings cannot tell " + parameters + " values",
                    "more points, or fit one value");
        }
        progress.at(0.1, "fit");
        PassageFit.Result r;
        try {
            r = PassageFit.fit(spec, whole.rotor(), readings, clearance, factor);
        } catch (IllegalArgumentException e) {
            throw problem("CANNOT_FIT", "/passages/" + spec.name(), e.getMessage(), "--what factor");
        }
        progress.at(0.6, "fit");
        int degrees = readings.size() - parameters;
        // Scatter beyond the stated uncertainty widens the interval; scatter below it does not narrow it: a meter may
        // be wrong alike.
        Rows rows =
                table.shortened() ? rows(whole, spec, data, table, readings, r, testGas(whole, settings), share) : null;
        double left = rows == null ? r.chiSquare() / degrees : rows.meanSquare();
        double scatter = degrees > 0 ? Math.max(1, left) : 1;
        double t = degrees > 0
                ? TDistribution.of(degrees).inverseCumulativeProbability((1 + CONFIDENCE) / 2)
                : NormalDistribution.of(0, 1).inverseCumulativeProbability((1 + CONFIDENCE) / 2);
        List<Parameter> fitted = new ArrayList<>();
        List<Edit> edits = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        if (clearance) {
            String field = CaseValue.clearanceField(spec);
            double drawing = CaseValue.clearance(spec);
            String at = "/passages/" + spec.name() + "/" + field;
            Parameter p = parameter(at, "m", drawing, r.clearanceRatio(), r.clearanceSigma(), t * Math.sqrt(scatter));
            fitted.add(p);
            if (p.observable()) {
                edits.add(new Edit(at, millimetres(p.fitted())));
            }
        }
        if (factor) {
            String at = "/passages/" + spec.name() + "/calibration factor";
            Parameter p = parameter(
                    at, "1", spec.calibrationFactor(), r.factorRatio(), r.factorSigma(), t * Math.sqrt(scatter));
            fitted.add(p);
            if (p.observable()) {
                edits.add(new Edit(at, number(p.fitted())));
            }
        }
        if (Math.abs(r.correlation()) > COUPLED) {
            notes.add(String.format(
                    Locale.ROOT,
                    "Clearance and flow factor move together (correlation %.2f): these data tell little more than their product."
                            + " Fit one of them.",
                    r.correlation()));
        }
        if (!r.settled()) {
            notes.add("The search stopped at its limit of iterations: the values are the best found.");
        }
        if (degrees > 0 && left > 4) {
            notes.add(
                    "The readings scatter more than twice their stated uncertainty about the model: either the uncertainty is larger, or"
                            + " the model's shape is not that of the passage. The interval is widened by it.");
        }
        if (degrees == 0) {
            notes.add("As many values as readings: nothing is left to check the model with.");
        }
        List<Point> points = new ArrayList<>();
        boolean[] outlier = outliers(readings, r.fitted());
        for (int i = 0; i < readings.size(); i++) {
            PassageFit.Reading m = readings.get(i);
            points.add(new Point(
                    i + 1,
                    table.table().lines()[i],
                    "flow",
                    "kg/s",
                    m.flow(),
                    r.before()[i],
                    r.fitted()[i],
                    m.sigma(),
                    (m.flow() - r.fitted()[i]) / m.sigma(),
                    outlier[i]));
            if (outlier[i] && rows == null) {
                notes.add("Line " + data.lines()[i] + " lies far from what the other readings agree on"
                        + without(spec, whole, readings, i, clearance, factor, r) + ".");
            }
        }
        if (rows != null) {
            notes.addAll(longNotes(data, table, rows));
            if (rows.outliers() > 0) {
                boolean[] use = new boolean[data.rows()];
                for (int i = 0; i < use.length; i++) {
                    use[i] = !rows.outlier()[i];
                }
                List<PassageFit.Reading> rest = readings(whole, alike(data, use).table(), settings, share);
                notes.add(moved(
                                "Without these lines",
                                PassageFit.fit(spec, whole.rotor(), rest, clearance, factor),
                                clearance,
                                r)
                        + ".");
            }
        }
        return new FitResult(
                true,
                false,
                List.copyOf(fitted),
                List.copyOf(points),
                r.chiSquare(),
                degrees,
                List.of(),
                Verdict.NOT_ESTABLISHED,
                "",
                Verdict.NOT_ESTABLISHED,
                "",
                List.copyOf(edits),
                List.copyOf(notes));
    }

    /** How much one reading moves the answer. */
    private static String without(
            PassageSpec spec,
            Case whole,
            List<PassageFit.Reading> readings,
            int left,
            boolean clearance,
            boolean factor,
            PassageFit.Result all) {
        List<PassageFit.Reading> rest = new ArrayList<>(readings);
        rest.remove(left);
        PassageFit.Result r = PassageFit.fit(spec, whole.rotor(), rest, clearance, factor);
        return moved("; without it", r, clearance, all);
    }

    private static String moved(String without, PassageFit.Result r, boolean clearance, PassageFit.Result all) {
        double moved = clearance ? r.clearanceRatio() / all.clearanceRatio() : r.factorRatio() / all.factorRatio();
        return String.format(
                Locale.ROOT,
                "%s the %s would be %+.1f %% from the value fitted",
                without,
                clearance ? "clearance" : "flow factor",
                100 * (moved - 1));
    }

    // --- more rows than can be computed one by one
    // ------------------------------------------------------------------------------------------------

    /** Rows of one operating point put together. */
    private static LongTable alike(DataTable data, boolean[] use) {
        List<Column> by = new ArrayList<>();
        for (String name : List.of("upstream pressure", "downstream pressure", "temperature", "speed")) {
            if (data.column(name) != null) {
                by.add(data.column(name));
            }
        }
        return LongTable.of(data, by, null, use, MOST_READINGS);
    }

    /**
     * The single rows against the fit.
     *
     * @param meanSquare of residual over uncertainty
     * @param outlier far from what the others agree on
     */
    private record Rows(double meanSquare, boolean[] outlier, int outliers) {}

    /** Each row against its group's computed flow, carried to the row's own state by the model's slopes there. */
    private Rows rows(
            Case whole,
            PassageSpec spec,
            DataTable data,
            LongTable table,
            List<PassageFit.Reading> readings,
            PassageFit.Result r,
            PureFluid gas,
            double share) {
        Column up = data.column("upstream pressure");
        Column down = data.column("downstream pressure");
        Column temperature = data.column("temperature");
        Column flow = data.column("flow");
        Column sigma = data.column("flow uncertainty");
        double[] slopeUp = PassageFit.slope(spec, whole.rotor(), gas, readings, r, 1 + STEP, 1, 1);
        double[] slopeDown = PassageFit.slope(spec, whole.rotor(), gas, readings, r, 1, 1 - STEP, 1);
        double[] slopeHot = PassageFit.slope(spec, whole.rotor(), gas, readings, r, 1, 1, 1 + STEP);
        double[] off = new double[data.rows()];
        double sum = 0;
        for (int i = 0; i < off.length; i++) {
            int g = table.group()[i];
            PassageFit.Reading mean = readings.get(g);
            double m = flow.values()[i];
            double expected = Math.log(r.fitted()[g])
                    + slopeUp[g] * Math.log(up.values()[i] / mean.up().pressure())
                    + slopeDown[g] * Math.log(down.values()[i] / mean.down().pressure())
                    + slopeHot[g] * Math.log(temperature.values()[i] / mean.up().temperature());
            off[i] = Math.log(m) - expected;
            double s = sigma == null || Double.isNaN(sigma.values()[i]) ? share : sigma.values()[i] / m;
            sum += off[i] * off[i] / (s * s);
        }
        boolean[] outlier = outliers(off, 1e-3);
        int outliers = 0;
        for (boolean each : outlier) {
            outliers += each ? 1 : 0;
        }
        return new Rows(sum / off.length, outlier, outliers);
    }

    private static List<String> longNotes(DataTable data, LongTable table, Rows rows) {
        List<String> out = new ArrayList<>();
        out.add(String.format(
                Locale.ROOT,
                "%d rows were put together into %d groups with pressures, temperature and speed alike within %.2g %%; a group's mean"
                        + " keeps the uncertainty of one reading, since a meter may be wrong alike in all of them. The scatter of the single"
                        + " rows about the fit is %.3g times their uncertainty.",
                data.rows(),
                table.count().length,
                100 * table.within(),
                Math.sqrt(rows.meanSquare())));
        if (rows.outliers() > 0) {
            List<String> first = new ArrayList<>();
            for (int i = 0; i < data.rows() && first.size() < NAMED_LINES; i++) {
                if (rows.outlier()[i]) {
                    first.add(Integer.toString(data.lines()[i]));
                }
            }
            out.add(String.format(
                    Locale.ROOT,
                    "%d of the rows lie far from what the others agree on, line%s %s%s.",
                    rows.outliers(),
                    first.size() > 1 ? "s" : "",
                    String.join(", ", first),
                    rows.outliers() > first.size() ? " first" : ""));
        }
        return out;
    }

    private static Parameter parameter(
            String place, String unit, double drawing, double ratio, double sigma, double times) {
        boolean observable = sigma * times < Math.log(3);
        return new Parameter(
                place,
                unit,
                drawing,
                drawing * ratio,
                drawing * ratio * Math.exp(-times * sigma),
                drawing * ratio * Math.exp(times * sigma),
                observable,
                Double.NaN);
    }

    private List<PassageFit.Reading> readings(Case whole, DataTable data, FitSettings settings, double share) {
        Column up = data.column("upstream pressure");
        Column down = data.column("downstream pressure");
        Column temperature = data.column("temperature");
        Column flow = data.column("flow");
        Column speed = data.column("speed");
        if (speed != null) {
            Channels.requireDimension(data, speed, Dimension.ANGULAR_SPEED);
        }
        Column sigma = data.column("flow uncertainty");
        if (sigma != null) {
            Channels.requireDimension(data, sigma, Dimension.MASS_FLOW);
        }
        PureFluid gas = testGas(whole, settings);
        List<PassageFit.Reading> out = new ArrayList<>();
        for (int i = 0; i < data.rows(); i++) {
            try {
                FluidState a =
                        gas.atPressureTemperature(up.values()[i], temperature.values()[i]);
                FluidState b = gas.atPressureEnthalpy(down.values()[i], a.enthalpy());
                double m = flow.values()[i];
                double s = sigma == null || Double.isNaN(sigma.values()[i]) ? share * m : sigma.values()[i];
                double w = speed == null || Double.isNaN(speed.values()[i]) ? 0 : speed.values()[i];
                if (!(s > 0) || !(w >= 0)) {
                    throw DataTable.problem(
                            "OUT_OF_RANGE",
                            data.name(),
                            data.lines()[i],
                            s > 0 ? "a negative speed" : "an uncertainty of 0: no instrument is that good",
                            "");
                }
                out.add(new PassageFit.Reading(a, b, w, m, s));
            } catch (PropertyException e) {
                throw DataTable.problem(
                        "OUT_OF_RANGE",
                        data.name(),
                        data.lines()[i],
                        gas.name() + " has no state there: " + e.getMessage(),
                        "");
            }
        }
        return out;
    }

    /** Every row is looked at, also of a table whose rows are put together. */
    private static void requireReadings(DataTable data) {
        Column up = need(data, "upstream pressure", Dimension.PRESSURE);
        Column down = need(data, "downstream pressure", Dimension.PRESSURE);
        Column temperature = need(data, "temperature", Dimension.TEMPERATURE);
        Column flow = data.column("flow");
        if (flow == null) {
            throw DataTable.problem(
                    "MISSING_COLUMN", data.name(), data.headerLine(), "there is no column \"flow\"", "flow [g/s]");
        }
        if (flow.dimension() == Dimension.VOLUME_FLOW) {
            throw DataTable.problem(
                    "NEEDS_REFERENCE_STATE",
                    data.name(),
                    data.headerLine(),
                    "column \"flow\" is a volume flow, and nobody can say at which pressure and temperature",
                    "mass flow, for instance [g/s]");
        }
        Channels.requireDimension(data, flow, Dimension.MASS_FLOW);
        for (int i = 0; i < data.rows(); i++) {
            for (Column c : List.of(up, down, temperature, flow)) {
                if (Double.isNaN(c.values()[i])) {
                    throw DataTable.problem(
                            "MISSING_VALUE",
                            data.name(),
                            data.lines()[i],
                            "column \"" + c.name() + "\" is empty",
                            "leave the row out");
                }
            }
            if (down.values()[i] >= up.values()[i] || !(flow.values()[i] > 0)) {
                throw DataTable.problem(
                        "OUT_OF_RANGE",
                        data.name(),
                        data.lines()[i],
                        down.values()[i] >= up.values()[i]
                                ? "the downstream pressure is not below the upstream pressure"
                                : "the flow must be above 0",
                        "one row for each reading with flow");
            }
        }
    }

    private static Column need(DataTable data, String name, Dimension dimension) {
        Column c = data.column(name);
        if (c == null) {
            throw DataTable.problem(
                    "MISSING_COLUMN",
                    data.name(),
                    data.headerLine(),
                    "there is no column \"" + name + "\"",
                    "upstream pressure [MPa], downstream pressure [kPa], temperature [K], flow [g/s]");
        }
        Channels.requireDimension(data, c, dimension);
        return c;
    }

    private PureFluid testGas(Case whole, FitSettings settings) {
        if (!settings.testGas().isEmpty()) {
            return engine.pure(settings.testGas());
        }
        String stream = whole.supply() != null
                ? whole.supply().gas()
                : whole.cavities().stream()
                        .filter(c -> c.fixed() && c.role() == Role.SUPPLY)
                        .map(Cavity::stream)
                        .findFirst()
                        .orElse("");
        for (StreamDefinition s : whole.streams()) {
            if (s.name().equals(stream) && s instanceof StreamDefinition.Single single) {
                return engine.pure(single.fluid());
            }
        }
        throw problem("NO_GAS", "/supply/gas", "the fluid of the flow check is not known", "--gas nitrogen");
    }

    /** Residuals far from the median by the median of absolute deviations; needs five readings. */
    private static boolean[] outliers(List<PassageFit.Reading> readings, double[] fitted) {
        double[] r = new double[fitted.length];
        for (int i = 0; i < r.length; i++) {
            r[i] = Math.log(readings.get(i).flow() / fitted[i]);
        }
        return outliers(r, 1e-3);
    }

    private static boolean[] outliers(double[] r, double floor) {
        boolean[] out = new boolean[r.length];
        if (r.length < 5) {
            return out;
        }
        double middle = median(r);
        double[] d = Arrays.stream(r).map(x -> Math.abs(x - middle)).toArray();
        double mad = Math.max(median(d), floor);
        for (int i = 0; i < r.length; i++) {
            out[i] = MAD * d[i] / mad > OUTLIER;
        }
        return out;
    }

    private static double median(double[] values) {
        double[] v = values.clone();
        Arrays.sort(v);
        int n = v.length;
        return n % 2 == 1 ? v[n / 2] : (v[n / 2 - 1] + v[n / 2]) / 2;
    }

    private static String millimetres(double metres) {
        return number(metres * 1e3) + " mm";
    }

    private static String number(double value) {
        return new java.math.BigDecimal(value)
                .round(new java.math.MathContext(5, java.math.RoundingMode.HALF_EVEN))
                .stripTrailingZeros()
                .toPlainString();
    }

    // --- the whole network
    // ------------------------------------------------------------------------------------------------

    private FitResult network(
            CaseDocument document, Case whole, DataTable measured, FitSettings settings, Progress progress) {
        List<String> seals = seals(whole);
        if (seals.isEmpty()) {
            throw problem("CANNOT_FIT", "/passages", "the case has no seal with a clearance", "");
        }
        List<int[]> origin = new ArrayList<>();
        LongTable table =
                LongTable.of(measured, boundaries(whole, measured), measured.column("phase"), null, MOST_POINTS);
        DataTable data = table.table();
        List<NetworkFit.TestPoint> points = points(document, whole, data, settings, origin);
        NetworkFit.Result r;
        try {
            r = new NetworkFit(solver).fit(points, seals, settings.priorSpread(), s -> progress.at(0.8 * s, "fit"));
        } catch (IllegalArgumentException e) {
            throw problem("NOT_CONVERGED", data.name(), e.getMessage(), "look at check with the measured boundaries");
        }
        double z = NormalDistribution.of(0, 1).inverseCumulativeProbability((1 + CONFIDENCE) / 2);
        List<Parameter> parameters = new ArrayList<>();
        List<Edit> edits = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        List<String> blind = new ArrayList<>();
        for (int j = 0; j < seals.size(); j++) {
            PassageSpec p = whole.passage(seals.get(j));
            double drawing = CaseValue.clearance(p);
            double learnt = 1 - r.sigma()[j] / settings.priorSpread();
            boolean observable = learnt >= OBSERVABLE;
            String at = "/passages/" + p.name() + "/" + CaseValue.clearanceField(p);
            parameters.add(new Parameter(
                    at,
                    "m",
                    drawing,
                    drawing * r.ratio()[j],
                    drawing * r.ratio()[j] * Math.exp(-z * r.sigma()[j]),
                    drawing * r.ratio()[j] * Math.exp(z * r.sigma()[j]),
                    observable,
                    learnt));
            if (observable) {
                edits.add(new Edit(at, millimetres(drawing * r.ratio()[j])));
            } else {
                blind.add(p.name());
            }
        }
        if (table.shortened()) {
            notes.add(String.format(
                    Locale.ROOT,
                    "%d rows were put together into %d test points with boundaries alike within %.2g %%; a mean keeps the uncertainty of"
                            + " one reading, since a gauge may be off alike in all of them.%s",
                    measured.rows(),
                    data.rows(),
                    100 * table.within(),
                    table.within() > COARSE
                            ? " That is coarse: the boundaries move too much; stretches of steady running tell more."
                            : ""));
        }
        if (!blind.isEmpty()) {
            notes.add("Not observable from these readings, left at the drawing: " + String.join(", ", blind) + ".");
        }
        for (int a = 0; a < seals.size(); a++) {
            for (int b = 0; b < a; b++) {
                if (Math.abs(r.correlation()[a][b]) > COUPLED) {
                    notes.add(String.format(
                            Locale.ROOT,
                            "%s and %s cannot be told apart well (correlation %.2f): one more reading between them would.",
                            seals.get(b),
                            seals.get(a),
                            r.correlation()[a][b]));
                }
            }
        }
        if (r.complete() && !r.settled()) {
            notes.add("The search stopped at its limit of iterations: the values are the best found.");
        }
        if (!r.complete()) {
            notes.add("Cancelled before the seals were weighed one by one.");
        }
        List<Point> out = networkPoints(points, r, data, origin);
        int degrees = out.size();
        if (r.chiSquare() > 2.5 * degrees) {
            notes.add(
                    "Even the best clearances leave the readings further off than their uncertainty: a reading is wrong, or something"
                            + " other than a clearance has changed.");
        }
        List<Point> far = out.stream().filter(Point::outlier).toList();
        far.stream()
                .limit(NAMED_LINES)
                .forEach(p -> notes.add("Line " + p.line() + ", " + p.channel()
                        + ": far from what the fitted network gives; look at the instrument."));
        if (far.size() > NAMED_LINES) {
            notes.add(far.size() - NAMED_LINES + " more readings lie as far: of "
                    + String.join(
                            ", ", far.stream().map(Point::channel).distinct().toList())
                    + ".");
        }
        List<Suspect> worn = r.alone().stream()
                .map(a -> new Suspect(a.seal(), a.ratio(), a.chiSquare(), a.probability()))
                .toList();
        return new FitResult(
                r.complete(),
                true,
                List.copyOf(parameters),
                List.copyOf(out),
                r.chiSquare(),
                degrees,
                worn,
                Verdict.NOT_ESTABLISHED,
                "",
                Verdict.NOT_ESTABLISHED,
                "",
                List.copyOf(edits),
                List.copyOf(notes));
    }

    /** Columns that set the machine rather than tell what it did. */
    private static List<Column> boundaries(Case whole, DataTable data) {
        List<Column> out = new ArrayList<>();
        for (Column c : data.columns()) {
            String place = c.dimension() == null ? null : Channels.place(c, whole);
            CaseValue value = place == null ? null : CaseValue.find(whole, place);
            if (value != null && !"passages".equals(value.section())) {
                out.add(c);
            }
        }
        return out;
    }

    private static List<Point> networkPoints(
            List<NetworkFit.TestPoint> points, NetworkFit.Result r, DataTable data, List<int[]> origin) {
        List<Point> out = new ArrayList<>();
        int k = 0;
        for (int i = 0; i < points.size(); i++) {
            for (NetworkFit.Reading reading : points.get(i).readings()) {
                double residual = (reading.value() - r.fitted()[k]) / reading.sigma();
                out.add(new Point(
                        i + 1,
                        data.lines()[origin.get(k)[0]],
                        data.columns().get(origin.get(k)[1]).name(),
                        unit(reading.quantity()),
                        reading.value(),
                        r.before()[k],
                        r.fitted()[k],
                        reading.sigma(),
                        residual,
                        Math.abs(residual) > OUTLIER));
                k++;
            }
        }
        return out;
    }

    private static String unit(Quantity quantity) {
        return switch (quantity) {
            case PRESSURE -> "Pa";
            case TEMPERATURE -> "K";
            case FLOW, PURGE_FLOW -> "kg/s";
        };
    }

    /** Seals with a clearance; ducts and valves do not wear open. */
    private static List<String> seals(Case whole) {
        List<String> out = new ArrayList<>();
        for (PassageSpec p : whole.passages()) {
            PassageType type = PassageTypes.find(p.type()).orElse(null);
            if (type != null && type.kind() != PassageType.SealKind.DUCT && CaseValue.clearance(p) > 0) {
                out.add(p.name());
            }
        }
        return out;
    }

    private List<NetworkFit.TestPoint> points(
            CaseDocument document, Case whole, DataTable data, FitSettings settings, List<int[]> origin) {
        Criteria criteria = Criteria.of(whole.criteria());
        double flowShare = Double.isNaN(settings.flowUncertainty())
                ? criteria.get(Limit.FLOW_UNCERTAINTY)
                : settings.flowUncertainty();
        double pressureSigma = Double.isNaN(settings.pressureUncertainty())
                ? criteria.get(Limit.INSTRUMENT_UNCERTAINTY)
                : settings.pressureUncertainty();
        double temperatureSigma = criteria.get(Limit.TEMPERATURE_UNCERTAINTY);
        Column phases = data.column("phase");
        Map<String, Case> models = new LinkedHashMap<>();
        List<NetworkFit.TestPoint> out = new ArrayList<>();
        for (int i = 0; i < data.rows(); i++) {
            Case model = phaseModel(document, whole, data, phases, i, models);
            List<NetworkFit.Reading> readings = new ArrayList<>();
            for (int c = 0; c < data.columns().size(); c++) {
                Column column = data.columns().get(c);
                double value = column.values()[i];
                if (column == phases || column.dimension() == null || Double.isNaN(value)) {
                    continue;
                }
                String place = Channels.place(column, model);
                if (place == null) {
                    throw Channels.unknown(data, column, model, "is no place of the case");
                }
                CaseValue boundary = CaseValue.find(model, place);
                if (boundary != null && !"passages".equals(boundary.section())) {
                    Channels.requireDimension(data, column, boundary.dimension());
                    model = boundary.set(model, value);
                    continue;
                }
                NetworkFit.Reading reading =
                        reading(data, column, model, place, value, pressureSigma, temperatureSigma, flowShare);
                readings.add(reading);
                origin.add(new int[] {i, c});
            }
            if (!readings.isEmpty()) {
                out.add(new NetworkFit.TestPoint(model, List.copyOf(readings)));
            }
        }
        if (out.isEmpty()) {
            throw DataTable.problem(
                    "MISSING_COLUMN",
                    data.name(),
                    data.headerLine(),
                    "no column is of something that is solved for",
                    "for instance: barrier pressure [MPa], purge flow [g/s]");
        }
        return out;
    }

    private Case phaseModel(
            CaseDocument document, Case whole, DataTable data, Column phases, int row, Map<String, Case> models) {
        String name = phases == null ? "" : phases.words().get(row);
        if (name.isEmpty()) {
            return whole;
        }
        Case known = models.get(name);
        if (known == null) {
            DutyPhase phase = whole.duty().stream()
                    .filter(p -> p.name().equals(name))
                    .findFirst()
                    .orElseThrow(() -> DataTable.problem(
                            "UNKNOWN_PHASE",
                            data.name(),
                            data.lines()[row],
                            "the case has no phase \"" + name + "\"",
                            ""));
            known = document.toCase(phase, engine);
            models.put(name, known);
        }
        return known;
    }

    private static NetworkFit.Reading reading(
            DataTable data,
            Column column,
            Case model,
            String place,
            double value,
            double pressureSigma,
            double temperatureSigma,
            double flowShare) {
        if (place.equals(RunService.PURGE_FLOW)) {
            Channels.requireDimension(data, column, Dimension.MASS_FLOW);
            return new NetworkFit.Reading(Quantity.PURGE_FLOW, "", value, flowSigma(data, column, value, flowShare));
        }
        String[] parts = place.split("/", -1);
        String name = parts.length == 4 ? parts[2].replace("~1", "/").replace("~0", "~") : "";
        String field = parts.length == 4 ? parts[3] : "";
        if (place.startsWith("/cavities/") && model.cavity(name) != null && field.equals("pressure")) {
            Channels.requireDimension(data, column, Dimension.PRESSURE);
            return new NetworkFit.Reading(Quantity.PRESSURE, name, value, pressureSigma);
        }
        if (place.startsWith("/cavities/") && model.cavity(name) != null && field.equals("temperature")) {
            Channels.requireDimension(data, column, Dimension.TEMPERATURE);
            return new NetworkFit.Reading(Quantity.TEMPERATURE, name, value, temperatureSigma);
        }
        if (place.startsWith("/passages/") && model.passage(name) != null && field.equals("flow")) {
            Channels.requireDimension(data, column, Dimension.MASS_FLOW);
            double sigma = flowSigma(data, column, value, flowShare);
            return new NetworkFit.Reading(Quantity.FLOW, name, value, sigma);
        }
        throw Channels.unknown(data, column, model, "is no place that is solved for");
    }

    private static double flowSigma(DataTable data, Column column, double value, double share) {
        double sigma = share * Math.abs(value);
        if (!(sigma > 0)) {
            throw DataTable.problem(
                    "OUT_OF_RANGE",
                    data.name(),
                    data.headerLine(),
                    "column \"" + column.name() + "\" holds a flow of 0, whose uncertainty nobody can tell",
                    "leave the cell empty");
        }
        return sigma;
    }
}
