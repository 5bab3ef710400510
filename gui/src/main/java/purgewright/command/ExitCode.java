package purgewright.command;

/** What a command ends with. Verdicts bring their own code; these are the rest. */
public final class ExitCode {
    /** Holds, or computed. */
    public static final int OK = 0;
    /** Falls short; {@code size}: infeasible; {@code validate}: a check failed. */
    public static final int FALLS_SHORT = 1;
    /** The input cannot be used, or the machine lacks what was asked for. */
    public static final int BAD_INPUT = 2;
    /** Not converged. */
    public static final int NOT_CONVERGED = 3;
    /** Not established. */
    public static final int NOT_ESTABLISHED = 4;
    /** A fault of this program. */
    public static final int INTERNAL = 70;

    private ExitCode() {}
}
