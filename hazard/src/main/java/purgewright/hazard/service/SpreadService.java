package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import purgewright.fluids.unit.Units;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.studies.Copula;
import purgewright.hazard.studies.Distribution;
import purgewright.hazard.studies.Intervals;
import purgewright.hazard.studies.RankCorrelations;
import purgewright.hazard.studies.Sample;
import purgewright.hazard.studies.SpreadResult;
import purgewright.hazard.studies.SpreadResult.Counts;
import purgewright.hazard.studies.SpreadResult.Identity;
import purgewright.hazard.studies.SpreadResult.Input;
import purgewright.hazard.studies.SpreadResult.OutputSpread;
import purgewright.hazard.studies.SpreadResult.Probability;
import purgewright.hazard.studies.SpreadResult.RareFailure;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SpreadSettings.Part;
import purgewright.hazard.studies.SpreadSettings.Sampling;
import purgewright.hazard.studies.SweepResult;
import purgewright.hazard.studies.Tally;
import purgewright.hazard.studies.UncertainInput;
import purgewright.hazard.studies.UnitCube;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.model.Case;

/**
 * Spread of a case's answer: what is not known, and what it does to the margins.
 *
 * <p>Cancel by interrupting the calling thread: the result for the samples done so far comes back, marked as not complete, and the
 * interrupt is taken. A case that cannot be used is a {@link CaseException} with every problem.
 *
 * <p>Results depend on case, settings, engine and program version alone, to the last bit; never on threads or on what ran before.
 */
public final class SpreadService {
    /** Samples between two looks at the stopping rule. Part of the definition of a result that stops by width. */
    private static final int ROUND = 256;
    /** Samples a task of the pool takes at once. */
    private static final int BLOCK = 4;
    /** Before so many samples the stopping rule is not asked: an interval of few samples is too easily narrow. */
    private static final int LEAST_SAMPLES = 512;

    /** Of the points that starts of solves are taken from; any number would do, but one for all. */
    private static final long STARTS_SEED = 20_260_101;

    private final CaseService service;

    /** On a service's engine and pool. */
    public SpreadService(CaseService service) {
        this.service = service;
    }

    /** The settings a case asks for, the defaults elsewhere. */
    public static SpreadSettings settings(CaseDocument document) {
        SpreadSettings s = SpreadSettings.DEFAULT;
        if (!(document.toCase().extras().get("spread") instanceof Map<?, ?> own)) {
            return s;
        }
        if (own.get("samples") instanceof Number n) {
            s = s.withSamples(n.intValue());
        }
        if (own.get("sampling") instanceof String word) {
            s = s.withSampling(Sampling.valueOf(word.toUpperCase(Locale.ROOT).replace(' ', '_')));
        }
        if (own.get("confidence") instanceof Number n) {
            s = s.withInterval(n.doubleValue(), s.interval(), s.width());
        }
        List<String> outputs = new ArrayList<>();
        if (own.get("outputs") instanceof List<?> list) {
            list.forEach(o -> outputs.add(String.valueOf(o)));
        }
        return s.withScope(s.phases(), outputs)
                .withAims(
                        own.get("target") instanceof Number n ? n.doubleValue() : s.target(),
                        own.get("false trips") instanceof Number n ? n.doubleValue() : s.falseTrips());
    }

    /** A case made ready. */
    record Prepared(
            CaseDocument document,
            Identity identity,
            List<UncertainInput> inputs,
            Copula copula,
            SpreadCase theCase,
            List<Followed> outputs,
            SpreadCase.Evaluated nominal) {

        /** From a point of the unit cube to values. */
        double[] values(double[] u) {
            double[] joined = copula.join(u);
            for (int i = 0; i < joined.length; i++) {
                joined[i] = inputs.get(i).distribution().quantile(joined[i]);
            }
            return joined;
        }

        Sample nominalSample() {
            return SpreadCase.sample(-1, nominal, outputs);
        }

        List<String> inputPlaces() {
            return inputs.stream().map(UncertainInput::place).toList();
        }

        List<String> outputPlaces() {
            return outputs.stream().map(Followed::place).toList();
        }
    }

    /** Told of every sample in the order of the plan, on the calling thread. */
    public interface Listener {
        /** Nobody listens. */
        Listener NONE = new Listener() {};

        /** Before the first sample. */
        default void begins(Identity identity, List<String> outputs) {}

        /** One sample; its outputs in the order announced. */
        default void sample(Sample sample) {}
    }

    /** Runs the plan, and the studies asked for. A part of a plan gives the spread of that part alone. */
    public SpreadResult run(CaseDocument document, SpreadSettings settings, Progress progress) {
        return run(document, settings, progress, Listener.NONE);
    }

    /** The same, handing on every sample. */
    public SpreadResult run(CaseDocument document, SpreadSettings settings, Progress progress, Listener listener) {
        progress.at(0, "as stated");
        Prepared p = prepare(document, settings);
        Tally tally = new Tally(p.outputs().size());
        listener.begins(p.identity(), p.outputPlaces());
        String stopped = sample(p, settings, tally, progress, listener::sample);
        return finish(p, settings, tally, stopped, progress);
    }

    /** Runs one part of the plan for a later {@link #merge}. */
    public SpreadPart part(CaseDocument document, SpreadSettings settings, Progress progress) {
        Prepared p = prepare(document, settings);
        Tally tally = new Tally(p.outputs().size());
        String stopped = sample(p, settings, tally, progress, s -> {});
        progress.at(1, "done");
        return new SpreadPart(
                p.identity(), settings, document.toJson(), p.outputPlaces(), stopped.isEmpty(), tally.state());
    }

    /**
     * Puts all parts of a plan together; the result is that of the whole plan run at once.
     *
     * @throws CaseException when parts are missing, doubled, cut short, or of different plans
     */
    public SpreadResult merge(List<SpreadPart> parts, Progress progress) {
        List<CaseProblem> problems = new ArrayList<>();
        if (parts.isEmpty()) {
            throw new CaseException(List.of(problem("NO_PARTS", "there is no part to put together", "")));
        }
        SpreadPart first = parts.get(0);
        TreeSet<Integer> missing = new TreeSet<>();
        for (int i = 1; i <= first.settings().part().of(); i++) {
            missing.add(i);
        }
        for (SpreadPart part : parts) {
            Part which = part.settings().part();
            String name = "part " + which.number() + "/" + which.of();
            boolean same =
                    part.settings().withPart(Part.WHOLE).equals(first.settings().withPart(Part.WHOLE))
                            && which.of() == first.settings().part().of()
                            && part.identity().equals(first.identity())
                            && part.outputs().equals(first.outputs());
            if (!same) {
                problems.add(problem(
                        "OTHER_PLAN",
                        name + " belongs to another plan: case, settings, seed or engine differ from the first",
                        "run every part with the same case and options"));
            } else if (!missing.remove(which.number())) {
                problems.add(problem("DOUBLED_PART", name + " is given twice", ""));
            } else if (!part.complete()) {
                problems.add(problem("CUT_SHORT", name + " was cancelled before its end", "run it again"));
            }
        }
        if (!missing.isEmpty() && problems.isEmpty()) {
            problems.add(problem(
                    "MISSING_PARTS",
                    "of " + first.settings().part().of() + " parts these are missing: " + missing,
                    "run them with --part"));
        }
        if (!problems.isEmpty()) {
            throw new CaseException(problems);
        }
        SpreadSettings whole = first.settings().withPart(Part.WHOLE);
        CaseDocument document = CaseDocument.parse(first.caseText());
        if (!document.hash().equals(first.identity().hash())
                || !service.engine().name().equals(first.identity().engine())) {
            throw new CaseException(List.of(problem(
                    "OTHER_CASE",
                    "the parts were made with another case or property engine than can be had here",
                    "engine of the parts: " + first.identity().engine())));
        }
        Prepared p = prepare(document, whole);
        Tally tally = new Tally(p.outputs().size());
        parts.forEach(part -> tally.add(Tally.of(part.tally())));
        return finish(p, whole, tally, "", progress);
    }

    private static CaseProblem problem(String key, String message, String suggestion) {
        return new CaseProblem(key, "", 0, 0, message, suggestion);
    }

    /** Follows quantities over one or two numbers of the case. */
    public SweepResult sweep(CaseDocument document, SweepSettings settings, Progress progress) {
        Case whole = document.toCase();
        List<UncertainInput> axes = new ArrayList<>();
        List<SweepResult.Axis> described = new ArrayList<>();
        List<CaseProblem> problems = new ArrayList<>();
        for (SweepSettings.Axis a : settings.axes()) {
            CaseDocument.Range range = document.range(a.place()).orElse(null);
            if (range == null || range.whole()) {
                problems.add(new CaseProblem(
                        "UNKNOWN_PLACE",
                        a.place(),
                        0,
                        0,
                        range == null ? "no number of the case stands there" : "a whole number is not swept",
                        "for instance /passages/NAME/clearance"));
                continue;
            }
            double nominal = document.text(a.place()).isEmpty()
                    ? Double.NaN
                    : Units.parse(
                            document.text(a.place()).get(),
                            range.dimension(),
                            whole.surroundings().pressure());
            List<Double> values = new ArrayList<>();
            for (int i = 0; i < a.points(); i++) {
                values.add(a.low() + (a.high() - a.low()) * i / (a.points() - 1));
            }
            axes.add(new UncertainInput(
                    a.place(),
                    UncertainInput.Kind.VALUE,
                    range.dimension(),
                    Double.isNaN(nominal) ? a.low() : nominal,
                    new Distribution.Uniform(a.low(), a.high()),
                    0,
                    ""));
            described.add(new SweepResult.Axis(a.place(), range.dimension().symbol(), nominal, List.copyOf(values)));
        }
        if (!problems.isEmpty()) {
            throw new CaseException(problems);
        }
        SpreadSettings scope = SpreadSettings.DEFAULT.withScope(settings.phases(), settings.outputs());
        Prepared p = prepare(document, scope, axes, Copula.independent(axes.size()));
        List<double[]> points = new ArrayList<>();
        List<Double> second = described.size() > 1 ? described.get(1).values() : List.of(Double.NaN);
        for (double y : second) {
            for (double x : described.get(0).values()) {
                points.add(described.size() > 1 ? new double[] {x, y} : new double[] {x});
            }
        }
        List<SweepResult.Point> out = new ArrayList<>();
        for (Sample s : evaluate(p, points, progress, 0, 1, "sweep")) {
            List<Double> at = new ArrayList<>();
            for (double x : s.inputs()) {
                at.add(x);
            }
            out.add(new SweepResult.Point(List.copyOf(at), s.verdict(), s.governing(), s.margin(), list(s.outputs())));
        }
        progress.at(1, "done");
        return new SweepResult(
                p.identity(),
                List.copyOf(described),
                p.outputPlaces(),
                p.outputs().stream().map(Followed::unit).toList(),
                List.copyOf(out),
                CaseService.cautions(whole, List.of()));
    }

    static List<Double> list(double[] values) {
        List<Double> out = new ArrayList<>();
        for (double v : values) {
            out.add(v);
        }
        return List.copyOf(out);
    }

    // --- the plan

    private Prepared prepare(CaseDocument document, SpreadSettings settings) {
        Case whole = document.toCase();
        List<UncertainInput> inputs = UncertainInput.of(document, whole);
        Prepared p = prepare(document, settings, inputs, UncertainInput.copula(document, whole, inputs));
        int points = Starts.points(inputs.size(), settings.samples());
        if (points == 0) {
            return p;
        }
        // Points of their own, the same for every part of the plan.
        UnitCube cube = new UnitCube(Sampling.LATIN_HYPERCUBE, STARTS_SEED, points, inputs.size());
        List<double[]> x = new ArrayList<>();
        List<Callable<SpreadCase.Evaluated>> tasks = new ArrayList<>();
        for (int i = 0; i < points; i++) {
            double[] at = p.values(cube.point(i));
            x.add(at);
            tasks.add(() -> p.theCase().evaluate(at));
        }
        SpreadCase ready = p.theCase().startingFrom(x, Pool.all(service.pool(), tasks));
        return new Prepared(document, p.identity(), inputs, p.copula(), ready, p.outputs(), p.nominal());
    }

    private Prepared prepare(
            CaseDocument document, SpreadSettings settings, List<UncertainInput> inputs, Copula copula) {
        Map<String, Case> models = CaseService.models(document, new CheckSettings(settings.phases(), false));
        SpreadCase theCase = new SpreadCase(service.engine(), service.points(), document, inputs, models);
        SpreadCase.Evaluated nominal = theCase.evaluate(theCase.nominalInputs());
        List<String> words = settings.outputs().isEmpty()
                ? Followed.usual(theCase.whole(), theCase.layout(), SpreadCase.numberedKeys(nominal))
                : settings.outputs();
        List<Followed> outputs =
                Followed.of(words, theCase.whole(), theCase.phases(), inputs, SpreadCase.keys(nominal));
        return new Prepared(
                document,
                new Identity(
                        document.text("/about/title").orElse("(no title)"),
                        document.hash(),
                        service.engine().name()),
                inputs,
                copula,
                theCase,
                outputs,
                nominal);
    }

    /** Fills the tally; @return why it ended before the plan's end, empty when it did not */
    private String sample(Prepared p, SpreadSettings settings, Tally tally, Progress progress, Consumer<Sample> sink) {
        UnitCube cube = new UnitCube(
                settings.sampling(),
                settings.seed(),
                settings.samples(),
                p.inputs().size());
        Part part = settings.part();
        long planned = planned(settings);
        double share = settings.studies().equals(SpreadSettings.Studies.NONE) ? 1 : 0.8;
        try {
            for (long begin = 0; begin < planned; begin += ROUND) {
                long end = Math.min(planned, begin + ROUND);
                List<Callable<List<Sample>>> tasks = new ArrayList<>();
                for (long block = begin; block < end; block += BLOCK) {
                    long from = block;
                    long to = Math.min(end, block + BLOCK);
                    tasks.add(() -> {
                        List<Sample> done = new ArrayList<>();
                        for (long k = from; k < to; k++) {
                            long index = part.number() - 1 + k * part.of();
                            done.add(p.theCase().sample(index, p.values(cube.point(index)), p.outputs()));
                        }
                        return done;
                    });
                }
                for (List<Sample> block : Pool.all(service.pool(), tasks)) {
                    for (Sample s : block) {
                        tally.add(s);
                        sink.accept(s);
                    }
                }
                Counts c = tally.counts(planned);
                progress.at(share * end / planned, line(c, planned));
                if (settings.width() > 0 && c.done() >= LEAST_SAMPLES && end < planned) {
                    double[] ends = Intervals.of(settings.interval(), c.done(), c.good(), settings.confidence());
                    if (ends[1] - ends[0] <= settings.width()) {
                        return String.format(
                                Locale.ROOT,
                                "the interval is no wider than %s after %d of %d samples",
                                number(settings.width()),
                                c.done(),
                                planned);
                    }
                }
            }
        } catch (CancellationException e) {
            // The interrupt is taken here: what follows writes a result, and files do not bear an interrupt.
            boolean taken = Thread.interrupted();
            return taken || tally.done() < planned ? CANCELLED : "";
        }
        return "";
    }

    private static final String CANCELLED = "cancelled";

    private static long planned(SpreadSettings s) {
        return (s.samples() - s.part().number()) / s.part().of()
                + 1L
                - (s.samples() < s.part().number() ? 1 : 0);
    }

    private static String line(Counts c, long planned) {
        return String.format(
                Locale.ROOT, "%d of %d samples, %.4g hold", c.done(), planned, (double) c.good() / c.done());
    }

    /** Many points, in their order. */
    List<Sample> evaluate(Prepared p, List<double[]> points, Progress progress, double from, double to, String what) {
        List<Sample> out = new ArrayList<>();
        for (int begin = 0; begin < points.size(); begin += ROUND) {
            int end = Math.min(points.size(), begin + ROUND);
            List<Callable<List<Sample>>> tasks = new ArrayList<>();
            for (int block = begin; block < end; block += BLOCK) {
                int first = block;
                int last = Math.min(end, block + BLOCK);
                tasks.add(() -> {
                    List<Sample> done = new ArrayList<>();
                    for (int k = first; k < last; k++) {
                        done.add(p.theCase().sample(k, points.get(k), p.outputs()));
                    }
                    return done;
                });
            }
            Pool.all(service.pool(), tasks).forEach(out::addAll);
            progress.at(from + (to - from) * end / points.size(), what);
        }
        return out;
    }

    // --- the result

    private SpreadResult finish(Prepared p, SpreadSettings settings, Tally tally, String stopped, Progress progress) {
        boolean cancelled = CANCELLED.equals(stopped);
        Sample nominal = p.nominalSample();
        List<OutputSpread> outputs = new ArrayList<>();
        for (int i = 0; i < p.outputs().size(); i++) {
            Followed f = p.outputs().get(i);
            outputs.add(tally.spread(i, f.place(), f.name(), f.unit(), nominal.outputs()[i]));
        }
        Counts counts = tally.counts(planned(settings));
        Probability holds = Intervals.probability(
                settings.interval(), counts.done(), counts.good(), counts.unknown(), settings.confidence());
        SpreadStudies studies = new SpreadStudies(this, service, p, settings, tally, progress);
        if (!cancelled) {
            try {
                studies.run();
            } catch (CancellationException e) {
                cancelled = true;
                stopped = Thread.interrupted() ? "cancelled among the studies after the samples" : CANCELLED;
            }
        }
        RareFailure rare = studies.rare();
        List<String> outside = outside(p);
        Verdict verdict = verdict(settings.target(), counts, holds, rare);
        if (!outside.isEmpty() && verdict != Verdict.FALLS_SHORT) {
            verdict = Verdict.NOT_ESTABLISHED;
        }
        progress.at(1, "done");
        return new SpreadResult(
                p.identity(),
                settings,
                inputs(p),
                counts,
                !cancelled,
                stopped.isEmpty() ? "all samples of the plan" : stopped,
                holds,
                tally.criteria(SpreadCase.keys(p.nominal()), settings),
                List.copyOf(outputs),
                tally.kept(),
                RankCorrelations.of(tally.kept(), p.inputPlaces(), p.outputPlaces(), settings.confidence()),
                studies.tornado(),
                studies.linear(),
                studies.sobol(),
                rare,
                studies.redlines(),
                studies.corners(),
                verdict,
                verdictLine(
                        verdict, outside, settings, counts, holds, p.nominal().verdict()),
                remarks(p, settings, counts, studies),
                CaseService.cautions(p.theCase().whole(), List.of()));
    }

    private static List<Input> inputs(Prepared p) {
        List<Input> out = new ArrayList<>();
        for (UncertainInput i : p.inputs()) {
            double[] moments = i.distribution().moments();
            out.add(new Input(
                    i.place(),
                    i.unit(),
                    i.nominal(),
                    i.distribution().words(),
                    moments[0],
                    moments[1],
                    i.distribution().quantile(0.05),
                    i.distribution().quantile(0.95),
                    i.cut(),
                    i.cutWords()));
        }
        return List.copyOf(out);
    }

    /** Null when no target is stated. What is not known never counts as holding. */
    static Verdict verdict(double target, Counts counts, Probability holds, RareFailure rare) {
        if (Double.isNaN(target)) {
            return null;
        }
        boolean searched = rare != null && (rare.reached() || rare.high() < 1);
        if (holds.low() >= target || (searched && 1 - rare.high() >= target)) {
            return Verdict.HOLDS;
        }
        if (holds.highIfUnknownHeld() < target || (searched && rare.unknown() == 0 && 1 - rare.low() < target)) {
            return Verdict.FALLS_SHORT;
        }
        return counts.notConverged() > 0 && holds.high() < target ? Verdict.NOT_CONVERGED : Verdict.NOT_ESTABLISHED;
    }

    private static String verdictLine(
            Verdict verdict,
            List<String> outside,
            SpreadSettings settings,
            Counts counts,
            Probability holds,
            Verdict nominal) {
        StringBuilder text = new StringBuilder();
        if (verdict != null) {
            text.append(verdict.word()).append(": ");
        }
        if (!outside.isEmpty()) {
            text.append("the value stated for ")
                    .append(String.join(", ", outside))
                    .append(" lies outside its own distribution, so that the draws are not of this case; ");
        }
        if (!Double.isNaN(settings.target())) {
            text.append("target ").append(number(settings.target())).append("; ");
        }
        text.append(Intervals.words(counts.done(), counts.good(), holds, settings.confidence()));
        List<String> kinds = new ArrayList<>();
        Map<String, Long> by = new LinkedHashMap<>();
        by.put("fall short", counts.fallsShort());
        by.put("not converged", counts.notConverged());
        by.put("not established", counts.notEstablished());
        by.put("thin", counts.thin());
        by.forEach((word, n) -> {
            if (n > 0) {
                kinds.add(n + " " + word);
            }
        });
        if (!kinds.isEmpty()) {
            text.append("; of the draws ").append(String.join(", ", kinds));
        }
        text.append("; as stated: ").append(nominal.word()).append("; faults not examined");
        return text.toString();
    }

    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.6g", value);
        return text.contains(".") ? text.replaceFirst("0+(e|$)", "$1").replaceFirst("\\.(e|$)", "$1") : text;
    }

    /** Places whose stated value its own distribution all but never gives: what is drawn says nothing of the case as it stands. */
    private static List<String> outside(Prepared p) {
        return p.inputs().stream()
                .filter(i -> i.kind() == UncertainInput.Kind.VALUE && !within(i, 0.001))
                .map(UncertainInput::place)
                .toList();
    }

    /** Whether the stated value lies between the quantiles of a share and of the rest. */
    private static boolean within(UncertainInput i, double share) {
        return i.nominal() >= i.distribution().quantile(share)
                && i.nominal() <= i.distribution().quantile(1 - share);
    }

    private static List<String> remarks(Prepared p, SpreadSettings settings, Counts counts, SpreadStudies studies) {
        List<String> out = new ArrayList<>();
        for (UncertainInput i : p.inputs()) {
            if (!i.cutWords().isEmpty()) {
                out.add(i.place() + ": " + i.cutWords());
            }
            if (i.kind() == UncertainInput.Kind.VALUE && !within(i, 0.05)) {
                out.add(i.place() + ": the value stated in the case lies outside "
                        + (within(i, 0.001) ? "the middle 90 % of its own distribution" : "its own distribution"));
            }
        }
        if (counts.unknown() > 0) {
            out.add(String.format(
                    Locale.ROOT,
                    "%d of %d samples say nothing (%d not converged, %d not established); they count as not holding",
                    counts.unknown(),
                    counts.done(),
                    counts.notConverged(),
                    counts.notEstablished()));
        }
        if (settings.sampling() != Sampling.RANDOM) {
            out.add("The interval is that of independent samples; "
                    + settings.sampling().word() + " spreads them more evenly, so it errs on the wide side.");
        }
        if (counts.done() > Tally.KEPT) {
            out.add("Rank correlations and scatter plots rest on the first " + Tally.KEPT + " samples of the plan.");
        }
        out.addAll(studies.remarks());
        return List.copyOf(out);
    }
}
