package purgewright.hazard.finding;

import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Puts findings together into one verdict, one line and one order. */
public final class Verdicts {
    /** Margins closer than this count as one in the order, so that rounding in a solve does not decide it. */
    private static final double SAME_MARGIN = 1e-6;

    /** Worst verdict first, then the smallest margin (none last): 0 is a tie, and says nothing of which came first. */
    public static final Comparator<Finding> WORSE = Comparator.comparing(Finding::verdict)
            .thenComparingDouble(
                    f -> Double.isNaN(f.margin()) ? Double.POSITIVE_INFINITY : Math.rint(f.margin() / SAME_MARGIN));

    /** As {@link #WORSE}, then the id, so that the order never depends on a thread. */
    public static final Comparator<Finding> WORST_FIRST = WORSE.thenComparing(Finding::id);

    private Verdicts() {}

    /** The first verdict word, in precedence, that occurs; "not established" when nothing was judged at all. */
    public static Verdict of(Collection<Finding> findings) {
        return findings.stream()
                .map(Finding::verdict)
                .min(Comparator.naturalOrder())
                .orElse(Verdict.NOT_ESTABLISHED);
    }

    /**
     * The verdict in words, naming every kind that occurs so that none hides another, and how many of each kind somebody has accepted.
     *
     * @param faultsExamined false adds that the sweep has not run
     */
    public static String line(Collection<Finding> findings, boolean faultsExamined) {
        Map<Verdict, Long> counts = findings.stream()
                .collect(Collectors.groupingBy(
                        Finding::verdict, () -> new EnumMap<>(Verdict.class), Collectors.counting()));
        Verdict verdict = of(findings);
        String rest = counts.entrySet().stream()
                .filter(e -> e.getKey() != Verdict.HOLDS || e.getKey() == verdict)
                .map(e -> e.getValue() + " " + e.getKey().word() + waived(findings, e.getKey()))
                .collect(Collectors.joining(", "));
        String line = rest.isEmpty() ? verdict.word() + ": nothing was judged" : verdict.word() + ": " + rest;
        return faultsExamined ? line : line + "; faults not examined";
    }

    private static String waived(Collection<Finding> findings, Verdict verdict) {
        long count = findings.stream()
                .filter(f -> f.verdict() == verdict && f.waiver() != null)
                .count();
        return count == 0 ? "" : " (" + count + " waived)";
    }

    /** Sorted, worst first. */
    public static List<Finding> sorted(Collection<Finding> findings) {
        return findings.stream().sorted(WORST_FIRST).toList();
    }

    /**
     * Sorted, worst first; of findings that tie, those of one criterion and place follow each other in the order of the phases: the
     * alphabet would credit what is the same in each phase to "abort".
     *
     * @param phases names in the case's order
     */
    public static List<Finding> sorted(Collection<Finding> findings, List<String> phases) {
        return findings.stream()
                .sorted(WORSE.thenComparing(f -> f.id().replace(":" + f.phase(), ""))
                        .thenComparingInt(f -> phases.indexOf(f.phase()))
                        .thenComparing(Finding::id))
                .toList();
    }

    /** Of findings of one criterion and place, worst first, those that tie with the first: their phases share the least margin. */
    public static List<Finding> tied(List<Finding> group) {
        return group.stream().filter(f -> WORSE.compare(f, group.get(0)) == 0).toList();
    }
}
