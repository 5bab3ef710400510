package purgewright.hazard.finding;

/**
 * One judged thing, with its evidence. Numbers are SI; NaN where there is none.
 *
 * @param id stable: criterion key, place and phase, for instance {@code barrier-pressure:ring A:steady}
 * @param verdict of this finding alone
 * @param what one sentence
 * @param where JSON Pointer with names, for instance {@code /passages/ring A}
 * @param phase duty phase
 * @param scenario "as stated", or the fault
 * @param value computed, SI
 * @param limit SI
 * @param margin relative as in the criteria, negative when it falls short
 * @param unit symbol of value and limit as in {@link purgewright.fluids.unit.Dimension#symbol}, "1" for ratios
 * @param how how it was computed, one sentence
 * @param source of the limit, with its label
 * @param mend what would mend it; empty when it holds
 * @param caution empty, or one sentence
 * @param evidence what it rests on; {@link Evidence#NONE} when it was not collected
 * @param waiver who has accepted it; null when nobody has
 */
public record Finding(
        String id,
        Verdict verdict,
        String what,
        String where,
        String phase,
        String scenario,
        double value,
        double limit,
        double margin,
        String unit,
        String how,
        String source,
        String mend,
        String caution,
        Evidence evidence,
        Waiver waiver) {

    /** A finding without evidence. */
    public Finding(
            String id,
            Verdict verdict,
            String what,
            String where,
            String phase,
            String scenario,
            double value,
            double limit,
            double margin,
            String unit,
            String how,
            String source,
            String mend,
            String caution) {
        this(
                id,
                verdict,
                what,
                where,
                phase,
                scenario,
                value,
                limit,
                margin,
                unit,
                how,
                source,
                mend,
                caution,
                Evidence.NONE,
                null);
    }

    /** The same with another caution. */
    public Finding withCaution(String text) {
        return with(verdict, text, evidence);
    }

    /** The same with one more caution. */
    public Finding withAnother(String text) {
        return withCaution(caution.isEmpty() ? text : caution + "; " + text);
    }

    /** The same with another verdict and the reason for it as one more caution. */
    public Finding withVerdict(Verdict word, String reason) {
        return with(word, caution, evidence).withAnother(reason);
    }

    /** The same with evidence. */
    public Finding withEvidence(Evidence numbers) {
        return with(verdict, caution, numbers);
    }

    /** The same, accepted by somebody. */
    public Finding withWaiver(Waiver accepted) {
        return new Finding(
                id, verdict, what, where, phase, scenario, value, limit, margin, unit, how, source, mend, caution,
                evidence, accepted);
    }

    private Finding with(Verdict word, String text, Evidence numbers) {
        return new Finding(
                id, word, what, where, phase, scenario, value, limit, margin, unit, how, source, mend, text, numbers,
                waiver);
    }
}
