package purgewright.hazard.finding;

/** Verdict words in precedence: the first that occurs is the verdict of the whole. */
public enum Verdict {
    FALLS_SHORT("falls short", 1),
    NOT_CONVERGED("not converged", 3),
    NOT_ESTABLISHED("not established", 4),
    THIN("thin", 0),
    HOLDS("holds", 0);

    private final String word;
    private final int exitCode;

    Verdict(String word, int exitCode) {
        this.word = word;
        this.exitCode = exitCode;
    }

    /** The word shown to people and in JSON. */
    public String word() {
        return word;
    }

    /** Exit code of a command that ends with this verdict. */
    public int exitCode() {
        return exitCode;
    }
}
