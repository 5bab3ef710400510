package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.studies.SpreadResult.Counts;
import purgewright.hazard.studies.SpreadResult.CriterionProbability;
import purgewright.hazard.studies.SpreadResult.Kept;
import purgewright.hazard.studies.SpreadResult.OutputSpread;

/**
 * What is kept of samples: counts, sketches, and the first {@link #KEPT} of the plan as they are. The order of the samples has no say,
 * and two tallies put together are exactly the tally of all. Memory does not grow with the number of samples. Owned by one thread.
 */
public final class Tally {
    /** Enough for a scatter plot and for a rank correlation to 0.03; some hundred kilobytes. */
    public static final int KEPT = 4000;

    /** Shares at which quantiles are given. */
    public static final List<Double> SHARES = List.of(0.001, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.999);

    private static final int BARS = 40;

    private final Map<Verdict, Long> verdicts = new EnumMap<>(Verdict.class);
    private final Map<String, long[]> criteria = new TreeMap<>();
    private final List<QuantileSketch> outputs = new ArrayList<>();
    private final TreeMap<Long, Sample> kept = new TreeMap<>();
    private long unjudged;

    /** For so many outputs. */
    public Tally(int outputs) {
        for (int i = 0; i < outputs; i++) {
            this.outputs.add(new QuantileSketch());
        }
        for (Verdict v : Verdict.values()) {
            verdicts.put(v, 0L);
        }
    }

    /**
     * What a tally holds, to be written and read.
     *
     * @param verdicts samples by verdict
     * @param missed samples that miss a criterion, by key
     * @param unknown samples where a criterion is not known, by key; without the unjudged
     * @param unjudged samples of which nothing is known
     */
    public record State(
            Map<Verdict, Long> verdicts,
            Map<String, Long> missed,
            Map<String, Long> unknown,
            long unjudged,
            List<QuantileSketch.State> outputs,
            Kept kept) {}

    /** Takes a sample. */
    public void add(Sample s) {
        verdicts.merge(s.verdict(), 1L, Long::sum);
        if (s.judged()) {
            s.criteria().forEach((key, known) -> criteria.computeIfAbsent(key, k -> new long[2])[known ? 1 : 0]++);
        } else {
            unjudged++;
        }
        for (int i = 0; i < outputs.size(); i++) {
            outputs.get(i).add(s.outputs()[i]);
        }
        if (s.index() < KEPT) {
            kept.put(s.index(), s);
        }
    }

    /** Takes all that another has taken. */
    public void add(Tally other) {
        other.verdicts.forEach((v, n) -> verdicts.merge(v, n, Long::sum));
        other.criteria.forEach((key, n) -> {
            long[] mine = criteria.computeIfAbsent(key, k -> new long[2]);
            mine[0] += n[0];
            mine[1] += n[1];
        });
        unjudged += other.unjudged;
        for (int i = 0; i < outputs.size(); i++) {
            outputs.get(i).add(other.outputs.get(i));
        }
        kept.putAll(other.kept);
    }

    /** What it holds. */
    public State state() {
        Map<String, Long> missed = new TreeMap<>();
        Map<String, Long> unknown = new TreeMap<>();
        criteria.forEach((key, n) -> {
            missed.put(key, n[0]);
            unknown.put(key, n[1]);
        });
        return new State(
                new EnumMap<>(verdicts),
                missed,
                unknown,
                unjudged,
                outputs.stream().map(QuantileSketch::state).toList(),
                kept());
    }

    /** A tally that holds what was written. @throws IllegalArgumentException for counts that no run has made */
    public static Tally of(State state) {
        Tally tally = new Tally(0);
        long done = 0;
        for (long n : state.verdicts().values()) {
            done = Math.addExact(done, count(n, Long.MAX_VALUE));
        }
        long most = done;
        state.missed().values().forEach(n -> count(n, most));
        state.unknown().values().forEach(n -> count(n, most));
        count(state.unjudged(), most);
        state.outputs()
                .forEach(o -> count(o.bins().values().stream().mapToLong(n -> n).sum(), most));
        tally.verdicts.putAll(state.verdicts());
        state.missed().forEach((key, n) -> tally.criteria.computeIfAbsent(key, k -> new long[2])[0] = n);
        state.unknown().forEach((key, n) -> tally.criteria.computeIfAbsent(key, k -> new long[2])[1] = n);
        tally.unjudged = state.unjudged();
        state.outputs().forEach(o -> tally.outputs.add(QuantileSketch.of(o)));
        Kept k = state.kept();
        for (int i = 0; i < k.index().size(); i++) {
            tally.kept.put(
                    k.index().get(i),
                    new Sample(
                            k.index().get(i),
                            k.inputs().get(i),
                            k.verdicts().get(i),
                            k.outputs().get(i),
                            Map.of(),
                            true,
                            Double.NaN,
                            ""));
        }
        return tally;
    }

    private static long count(long n, long most) {
        if (n < 0 || n > most) {
            throw new IllegalArgumentException(
                    n + " samples where there are " + (most == Long.MAX_VALUE ? "some" : most));
        }
        return n;
    }

    /** Samples taken. */
    public long done() {
        return verdicts.values().stream().mapToLong(Long::longValue).sum();
    }

    /** Samples by verdict. */
    public Counts counts(long planned) {
        return new Counts(
                planned,
                verdicts.get(Verdict.HOLDS),
                verdicts.get(Verdict.THIN),
                verdicts.get(Verdict.FALLS_SHORT),
                verdicts.get(Verdict.NOT_CONVERGED),
                verdicts.get(Verdict.NOT_ESTABLISHED));
    }

    /** Probability of each criterion; those of which every sample was met are not known here and come by name. */
    public List<CriterionProbability> criteria(Iterable<String> alsoKnown, SpreadSettings settings) {
        TreeSet<String> keys = new TreeSet<>(criteria.keySet());
        alsoKnown.forEach(keys::add);
        List<CriterionProbability> out = new ArrayList<>();
        long done = done();
        for (String key : keys) {
            long[] n = criteria.getOrDefault(key, new long[2]);
            long unknown = n[1] + unjudged;
            long met = done - n[0] - unknown;
            out.add(new CriterionProbability(
                    key,
                    met,
                    n[0],
                    unknown,
                    Intervals.probability(settings.interval(), done, met, unknown, settings.confidence())));
        }
        return out;
    }

    /** Sketch of one output. */
    public QuantileSketch output(int i) {
        return outputs.get(i);
    }

    /** Spread of one output. */
    public OutputSpread spread(int i, String place, String name, String unit, double nominal) {
        QuantileSketch q = outputs.get(i);
        List<Double> edges = new ArrayList<>();
        List<Long> bars = q.histogram(BARS, edges);
        return new OutputSpread(
                place,
                name,
                unit,
                nominal,
                q.count(),
                done() - q.count(),
                q.mean(),
                q.deviation(),
                q.least(),
                q.greatest(),
                SHARES,
                SHARES.stream().map(q::quantile).toList(),
                List.copyOf(edges),
                List.copyOf(bars));
    }

    /** The first samples of the plan. */
    public Kept kept() {
        return new Kept(
                List.copyOf(kept.keySet()),
                kept.values().stream().map(Sample::inputs).toList(),
                kept.values().stream().map(Sample::outputs).toList(),
                kept.values().stream().map(Sample::verdict).toList());
    }
}
