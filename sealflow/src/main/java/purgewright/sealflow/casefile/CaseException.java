package purgewright.sealflow.casefile;

import java.util.List;

/** Everything wrong with a case file, all at once. */
public final class CaseException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<CaseProblem> problems;

    /** @param problems at least one, in file order */
    public CaseException(List<CaseProblem> problems) {
        super(problems.isEmpty() ? "bad case" : problems.get(0).message());
        this.problems = List.copyOf(problems);
    }

    /** In file order. */
    public List<CaseProblem> problems() {
        return problems == null ? List.of() : problems;
    }
}
