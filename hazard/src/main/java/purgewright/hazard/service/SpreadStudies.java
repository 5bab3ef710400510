package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.UnaryOperator;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.service.SpreadService.Prepared;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.studies.Distribution;
import purgewright.hazard.studies.RedlineStudy;
import purgewright.hazard.studies.Sample;
import purgewright.hazard.studies.SobolIndices;
import purgewright.hazard.studies.SpreadResult.Corner;
import purgewright.hazard.studies.SpreadResult.LinearEffect;
import purgewright.hazard.studies.SpreadResult.RareFailure;
import purgewright.hazard.studies.SpreadResult.RedlineTrade;
import purgewright.hazard.studies.SpreadResult.SobolIndex;
import purgewright.hazard.studies.SpreadResult.TornadoBar;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SubsetSimulation;
import purgewright.hazard.studies.Tally;
import purgewright.hazard.studies.UncertainInput;
import purgewright.hazard.studies.UncertainInput.Kind;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.Sensitivities;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolverSettings;

/** What is looked at beside the samples of a spread. Made for one run; what was not asked for, or not reached, is empty. */
final class SpreadStudies {
    /** Step of a slope, in standard deviations: small against the input's range, large against the closure of a solve. */
    private static final double STEP = 0.02;

    /** Where the case says nothing, samples a second [invented]. */
    private static final double USUAL_RATE = 100;
    /** Where the case says nothing, samples in a row [invented]. */
    private static final int USUAL_PERSISTENCE = 3;
    /** Where the case has no duty, s [invented]. */
    private static final double USUAL_DURATION = 100;

    private final SpreadService spread;
    private final CaseService service;
    private final Prepared p;
    private final SpreadSettings settings;
    private final Tally tally;
    private final Progress progress;

    private List<TornadoBar> tornado = List.of();
    private List<LinearEffect> linear = List.of();
    private List<SobolIndex> sobol = List.of();
    private RareFailure rare;
    private List<RedlineTrade> redlines = List.of();
    private List<Corner> corners = List.of();
    private final List<String> remarks = new ArrayList<>();

    SpreadStudies(
            SpreadService spread,
            CaseService service,
            Prepared p,
            SpreadSettings settings,
            Tally tally,
            Progress progress) {
        this.spread = spread;
        this.service = service;
        this.p = p;
        this.settings = settings;
        this.tally = tally;
        this.progress = progress;
    }

    void run() {
        SpreadSettings.Studies wanted = settings.studies();
        if (wanted.tornado() || wanted.corners()) {
            List<TornadoBar> bars = bars();
            tornado = wanted.tornado() ? bars : List.of();
            corners = wanted.corners() ? corners(bars) : List.of();
        }
        if (wanted.linear()) {
            linear = slopes();
        }
        if (wanted.redlines()) {
            redlines = trades();
        }
        if (wanted.sobol() > 0) {
            sobol = indices(wanted.sobol());
        }
        if (wanted.rare() > 0) {
            rare = search(wanted.rare());
        }
    }

    List<TornadoBar> tornado() {
        return tornado;
    }

    List<LinearEffect> linear() {
        return linear;
    }

    List<SobolIndex> sobol() {
        return sobol;
    }

    RareFailure rare() {
        return rare;
    }

    List<RedlineTrade> redlines() {
        return redlines;
    }

    List<Corner> corners() {
        return corners;
    }

    List<String> remarks() {
        return remarks;
    }

    // --- sensitivities

    private List<double[]> oneByOne(double[] low, double[] high) {
        List<double[]> points = new ArrayList<>();
        double[] nominal = p.theCase().nominalInputs();
        for (int i = 0; i < nominal.length; i++) {
            double[] a = nominal.clone();
            a[i] = low[i];
            double[] b = nominal.clone();
            b[i] = high[i];
            points.add(a);
            points.add(b);
        }
        return points;
    }

    private double[] quantiles(double share) {
        return p.inputs().stream()
                .mapToDouble(i -> i.distribution().quantile(share))
                .toArray();
    }

    private List<TornadoBar> bars() {
        double[] low = quantiles(0.05);
        double[] high = quantiles(0.95);
        List<Sample> samples = spread.evaluate(p, oneByOne(low, high), progress, 0.8, 0.84, "tornado");
        Sample nominal = p.nominalSample();
        List<TornadoBar> out = new ArrayList<>();
        for (int o = 0; o < p.outputs().size(); o++) {
            List<TornadoBar> rows = new ArrayList<>();
            for (int i = 0; i < low.length; i++) {
                rows.add(new TornadoBar(
                        p.outputs().get(o).place(),
                        p.inputs().get(i).place(),
                        low[i],
                        high[i],
                        samples.get(2 * i).outputs()[o],
                        nominal.outputs()[o],
                        samples.get(2 * i + 1).outputs()[o]));
            }
            rows.sort(Comparator.comparingDouble((TornadoBar b) -> Double.isNaN(b.span()) ? 0 : -b.span())
                    .thenComparing(TornadoBar::input));
            out.addAll(rows);
        }
        return List.copyOf(out);
    }

    /** By the adjoint where it knows quantity and input, else by a central difference. */
    private List<LinearEffect> slopes() {
        int n = p.inputs().size();
        double[] nominal = p.theCase().nominalInputs();
        double[] sigma = new double[n];
        double[] low = new double[n];
        double[] high = new double[n];
        for (int i = 0; i < n; i++) {
            UncertainInput in = p.inputs().get(i);
            sigma[i] = in.distribution().moments()[1];
            boolean steps = in.kind() == Kind.MODEL_FORM;
            low[i] = steps ? -1 : nominal[i] - STEP * sigma[i];
            high[i] = steps ? 1 : nominal[i] + STEP * sigma[i];
        }
        List<Sample> samples = spread.evaluate(p, oneByOne(low, high), progress, 0.84, 0.88, "slopes");
        Map<String, Sensitivities> adjoint = new LinkedHashMap<>();
        List<LinearEffect> out = new ArrayList<>();
        for (int o = 0; o < p.outputs().size(); o++) {
            Map<String, Double> known = known(p.outputs().get(o).place(), adjoint);
            List<LinearEffect> rows = new ArrayList<>();
            double sum = 0;
            for (int i = 0; i < n; i++) {
                double difference = high[i] > low[i]
                        ? (samples.get(2 * i + 1).outputs()[o]
                                        - samples.get(2 * i).outputs()[o])
                                / (high[i] - low[i])
                        : Double.NaN;
                Double exact = known.get(p.inputs().get(i).place());
                double slope = exact != null ? exact : difference;
                double effect = slope * sigma[i];
                sum += Double.isNaN(effect) ? 0 : effect * effect;
                rows.add(new LinearEffect(
                        p.outputs().get(o).place(),
                        p.inputs().get(i).place(),
                        slope,
                        effect,
                        effect * effect,
                        exact != null ? "adjoint" : "difference"));
            }
            double whole = sum;
            rows.replaceAll(r -> new LinearEffect(
                    r.output(),
                    r.input(),
                    r.derivative(),
                    r.deviation(),
                    whole > 0 ? r.share() / whole : Double.NaN,
                    r.method()));
            rows.sort(Comparator.comparingDouble(
                            (LinearEffect e) -> Double.isNaN(e.deviation()) ? 0 : -Math.abs(e.deviation()))
                    .thenComparing(LinearEffect::input));
            out.addAll(rows);
        }
        return List.copyOf(out);
    }

    /** Slopes of a solved cavity's pressure by place; empty for other quantities. */
    private Map<String, Double> known(String place, Map<String, Sensitivities> made) {
        Map<String, Double> out = new LinkedHashMap<>();
        int colon = place.indexOf(":/");
        String phase = colon < 0 ? p.theCase().phases().get(0) : place.substring(0, colon);
        String[] parts = place.substring(colon < 0 ? 0 : colon + 1).split("/", -1);
        Converged solved = p.nominal().solved(phase);
        boolean pressure = parts.length == 4 && "cavities".equals(parts[1]) && "pressure".equals(parts[3]);
        if (!pressure || solved == null || (colon < 0 && p.theCase().phases().size() > 1)) {
            return out;
        }
        try {
            Case model = p.nominal().points().get(phase).model();
            NetworkSolver solver = new NetworkSolver(service.engine(), SolverSettings.DEFAULT);
            Sensitivities s = made.computeIfAbsent(phase, k -> Sensitivities.of(solver, model, solved));
            double[] ratios = p.theCase().ratios(phase);
            for (Sensitivities.Sensitivity each : s.pressure(parts[2])) {
                int i = p.inputPlaces().indexOf(each.place());
                if (i >= 0) {
                    out.put(each.place(), each.derivative() * ratios[i]);
                }
            }
        } catch (IllegalArgumentException e) {
            // A solver of another kind, or a singular matrix: the differences stand in.
            out.clear();
        }
        return out;
    }

    private List<SobolIndex> indices(int base) {
        if (!p.copula().isIndependent()) {
            remarks.add("Variance-based indices take the inputs as independent; the case correlates some of them.");
        }
        return SobolIndices.of(
                points -> spread.evaluate(p, points, progress, 0.9, 0.95, "variance-based indices").stream()
                        .map(Sample::outputs)
                        .toList(),
                u -> {
                    double[] x = new double[u.length];
                    for (int i = 0; i < x.length; i++) {
                        x[i] = p.inputs().get(i).distribution().quantile(u[i]);
                    }
                    return x;
                },
                p.inputPlaces(),
                p.outputPlaces(),
                base,
                settings.seed());
    }

    private RareFailure search(int samples) {
        RareFailure found = SubsetSimulation.find(
                points -> {
                    List<double[]> x = new ArrayList<>();
                    for (double[] z : points) {
                        double[] u = p.copula().correlate(z);
                        for (int i = 0; i < u.length; i++) {
                            u[i] = p.inputs().get(i).distribution().quantile(inside(normalTail(u[i])));
                        }
                        x.add(u);
                    }
                    return spread.evaluate(p, x, progress, 0.95, 0.99, "rare failures").stream()
                            .map(s -> new double[] {distance(s)})
                            .toList();
                },
                p.inputs().size(),
                samples,
                settings.seed(),
                settings.confidence());
        if (found.unknown() > 0) {
            remarks.add(
                    found.unknown() + " points of the search for rare failures have no answer; they count as failures");
        }
        return found;
    }

    private static double normalTail(double z) {
        return new Distribution.Normal(0, 1).cumulative(z);
    }

    private static double inside(double u) {
        return Math.max(0x1p-53, Math.min(1 - 0x1p-53, u));
    }

    /** Below 0 where the separation does not hold, NaN where it is not known. */
    static double distance(Sample s) {
        return switch (s.verdict()) {
            case HOLDS, THIN -> Double.isNaN(s.margin()) ? 1 : Math.max(0, s.margin());
            case FALLS_SHORT -> Double.isNaN(s.margin()) ? -1 : Math.min(-1e-12, s.margin());
            default -> Double.NaN;
        };
    }

    // --- corners

    /** A row of the table before it is computed. */
    private record Draft(String name, String what, double[] x, UnaryOperator<Case> change, String scenario) {}

    private List<Corner> corners(List<TornadoBar> bars) {
        double[] nominal = p.theCase().nominalInputs();
        Set<String> seals = new DesignPoints(
                        service.points(),
                        service.pool(),
                        p.theCase().whole(),
                        p.theCase().models())
                .seals();
        UnaryOperator<Case> worn = p.theCase().worn(seals);
        double[] adverse = nominal.clone();
        double[] favourable = nominal.clone();
        double[] tight = nominal.clone();
        double[] wide = nominal.clone();
        for (TornadoBar b : bars) {
            if (Followed.MARGIN.equals(b.output()) && Double.isFinite(b.span())) {
                int i = p.inputPlaces().indexOf(b.input());
                boolean lowHurts = b.atLow() <= b.atHigh();
                adverse[i] = lowHurts ? b.lowInput() : b.highInput();
                favourable[i] = lowHurts ? b.highInput() : b.lowInput();
            }
        }
        for (int i = 0; i < nominal.length; i++) {
            UncertainInput in = p.inputs().get(i);
            if (in.kind() == Kind.VALUE
                    && (in.place().endsWith("clearance") || in.place().endsWith("gap"))) {
                tight[i] = in.distribution().quantile(0.05);
                wide[i] = in.distribution().quantile(0.95);
            }
        }
        boolean followsMargin = p.outputPlaces().contains(Followed.MARGIN);
        List<Draft> drafts = new ArrayList<>();
        drafts.add(new Draft("as stated", "every value as in the case", nominal, c -> c, Scene.AS_STATED));
        drafts.add(new Draft(
                "all new, tight", "uncertain clearances at their 5 % quantile", tight, c -> c, Scene.AS_STATED));
        drafts.add(new Draft(
                "all new, wide", "uncertain clearances at their 95 % quantile", wide, c -> c, Scene.AS_STATED));
        drafts.add(new Draft(
                "all worn",
                "every barrier seal at its worn clearance, else opened by the clearance factor",
                nominal,
                worn,
                "all barrier seals worn"));
        drafts.add(new Draft(
                "boundaries high",
                "working pressures raised, purge supply lowered, by the boundary excess",
                nominal,
                c -> boundaries(c, 1),
                "boundaries high"));
        drafts.add(new Draft(
                "boundaries low",
                "working pressures lowered, purge supply raised, by the boundary excess",
                nominal,
                c -> boundaries(c, -1),
                "boundaries low"));
        drafts.add(new Draft(
                "worn, boundaries high",
                "both",
                nominal,
                c -> boundaries(worn.apply(c), 1),
                "all barrier seals worn, boundaries high"));
        if (followsMargin) {
            drafts.add(new Draft(
                    "every input adverse",
                    "each uncertain value at the end that lowers the least margin (5 or 95 %)",
                    adverse,
                    c -> c,
                    Scene.AS_STATED));
            drafts.add(
                    new Draft("every input favourable", "each at the other end", favourable, c -> c, Scene.AS_STATED));
            drafts.add(new Draft("worn, every input adverse", "both", adverse, worn, "all barrier seals worn"));
        }
        List<Callable<Corner>> tasks = new ArrayList<>();
        for (Draft d : drafts) {
            tasks.add(() -> {
                Sample s = SpreadCase.sample(-1, p.theCase().evaluate(d.x(), d.change(), d.scenario()), p.outputs());
                return new Corner(
                        d.name(), d.what(), s.verdict(), SpreadService.list(s.outputs()), s.governing(), s.margin());
            });
        }
        List<Corner> out = Pool.all(service.pool(), tasks);
        progress.at(0.89, "corners");
        return List.copyOf(out);
    }

    private Case boundaries(Case c, int sign) {
        double excess = Criteria.of(c.criteria()).get(Limit.BOUNDARY_EXCESS);
        Case changed = c;
        for (Cavity k : c.cavities()) {
            if (k.fixed() && k.role() != Role.VENT) {
                int way = p.theCase().layout().sources().contains(k.name()) ? -sign : sign;
                changed = Edits.cavity(changed, k.name(), x -> Edits.pressure(x, x.pressure() * (1 + way * excess)));
            }
        }
        return changed;
    }

    // --- redlines

    private List<RedlineTrade> trades() {
        Case whole = p.theCase().whole();
        Criteria criteria = Criteria.of(whole.criteria());
        double stopping = criteria.get(Limit.SHUTDOWN_TIME) + criteria.get(Limit.COAST_DOWN_TIME);
        double detection = criteria.get(Limit.DETECTION_TIME);
        double duration = 0;
        for (DutyPhase phase : whole.duty()) {
            if (p.theCase().phases().contains(phase.name()) && Double.isFinite(phase.duration())) {
                duration += phase.duration();
            }
        }
        boolean noDuty = !(duration > 0);
        List<Callable<RedlineTrade>> tasks = new ArrayList<>();
        for (Redline r : new RedlineFinder(
                        new DesignPoints(
                                service.points(),
                                service.pool(),
                                whole,
                                p.theCase().models()),
                        DesignPoints.Edit.NONE)
                .redlines()) {
            Map<?, ?> instrument = instrument(whole, r);
            List<String> assumed = new ArrayList<>();
            if (instrument == null) {
                assumed.add("no instrument is stated");
            }
            if (noDuty) {
                assumed.add("no duty is stated");
            }
            double uncertainty = value(instrument, "uncertainty", r.uncertainty());
            boolean decays = r.lowest() && "Pa".equals(r.unit());
            double tau = decays ? r.lasts() : Double.NaN;
            if (!(Double.isFinite(r.physical()) && Double.isFinite(r.nominal()))) {
                remarks.add(r.name() + ": no redline can be traded, " + r.reason());
                continue;
            }
            RedlineStudy.Reading reading = new RedlineStudy.Reading(
                    r.label(),
                    r.place(),
                    r.phase(),
                    r.unit(),
                    r.lowest(),
                    r.physical(),
                    r.nominal(),
                    spreadOf(r),
                    value(instrument, "noise", uncertainty / 2),
                    uncertainty / 2,
                    value(instrument, "lag", 0),
                    value(instrument, "sample rate", USUAL_RATE),
                    (int) value(instrument, "persistence", USUAL_PERSISTENCE),
                    (int) value(instrument, "sensors", 1),
                    (int) value(instrument, "votes", 1),
                    noDuty ? USUAL_DURATION : duration,
                    tau,
                    stopping,
                    detection,
                    value(instrument, r.lowest() ? "low redline" : "high redline", Double.NaN),
                    String.join("; ", assumed));
            tasks.add(() -> RedlineStudy.trade(reading, settings.falseTrips()));
        }
        remarks.add("Redlines: where no instrument is stated, " + number(USUAL_RATE) + " samples a second and "
                + USUAL_PERSISTENCE
                + " in a row are taken [invented], error and noise from the criteria's uncertainty, half of it each a"
                + " standard deviation; where no duty is stated, a run of " + number(USUAL_DURATION)
                + " s [invented].");
        List<RedlineTrade> out = Pool.all(service.pool(), tasks);
        progress.at(0.9, "redlines");
        return List.copyOf(out);
    }

    private static double value(Map<?, ?> instrument, String field, double fallback) {
        return instrument != null && instrument.get(field) instanceof Number n ? n.doubleValue() : fallback;
    }

    /** What a redline's reading measures, in the words of instruments. */
    private static String measures(Redline r) {
        return switch (r.unit()) {
            case "kg/s" -> "flow";
            case "K" -> "temperature";
            default -> "pressure";
        };
    }

    private static Map<?, ?> instrument(Case whole, Redline r) {
        String name = r.place().substring(r.place().lastIndexOf('/') + 1);
        for (Object each : whole.extras().get("instruments") instanceof List<?> list ? list : List.of()) {
            if (each instanceof Map<?, ?> m
                    && measures(r).equals(m.get("measures"))
                    && name.equals(m.get("flow".equals(measures(r)) ? "passage" : "cavity"))) {
                return m;
            }
        }
        return null;
    }

    /** Standard deviation from run to run of the reading, where it is followed: in the phase whose nominal value is the redline's. */
    private double spreadOf(Redline r) {
        String wanted = r.place() + "/" + measures(r);
        Sample nominal = p.nominalSample();
        double closest = Double.POSITIVE_INFINITY;
        double spreadThere = 0;
        boolean followed = false;
        for (int i = 0; i < p.outputs().size(); i++) {
            String place = p.outputs().get(i).place();
            double distance = Math.abs(nominal.outputs()[i] - r.nominal());
            if ((place.equals(wanted) || place.endsWith(":" + wanted)) && distance < closest) {
                closest = distance;
                double deviation = tally.output(i).deviation();
                spreadThere = Double.isNaN(deviation) ? 0 : deviation;
                followed = true;
            }
        }
        if (!followed) {
            remarks.add(
                    r.name() + " is not among the outputs followed: its trade leaves out the spread from run to run");
        }
        return spreadThere;
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.0f", value);
    }
}
