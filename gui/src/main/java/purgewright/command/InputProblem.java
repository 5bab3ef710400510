package purgewright.command;

import java.util.List;
import purgewright.sealflow.casefile.CaseProblem;

/** Something on the command line, or in a file beside the case, that cannot be used; ends with {@link ExitCode#BAD_INPUT}. */
public final class InputProblem extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final String key;
    private final String suggestion;

    /**
     * @param key stable kind, for instance {@code FILE_EXISTS}
     * @param message one sentence, what is wrong
     * @param suggestion what would be right; may be empty
     */
    public InputProblem(String key, String message, String suggestion) {
        super(message);
        this.key = key;
        this.suggestion = suggestion;
    }

    /** In the form that a case file's problems have. */
    public List<CaseProblem> problems() {
        return List.of(new CaseProblem(key, "", 0, 0, getMessage(), suggestion));
    }
}
