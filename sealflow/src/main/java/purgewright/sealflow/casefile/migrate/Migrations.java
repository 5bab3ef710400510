package purgewright.sealflow.casefile.migrate;

import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;

/** Steps from one version of the layout to the next. */
public final class Migrations {
    /** The layout this program writes. */
    public static final int CURRENT = 1;

    /** Step {@code i} leads from version {@code i + 1} to {@code i + 2}; each keeps everything it does not know. */
    private static final List<UnaryOperator<CaseDocument>> STEPS = List.of();

    private Migrations() {}

    /**
     * The document in the current layout. One without a version, or with a version that is no whole number, comes back as it is:
     * reading it says so together with whatever else is wrong.
     *
     * @throws CaseException {@code UNKNOWN_VERSION} for a version that does not exist yet or never did
     */
    public static CaseDocument upgrade(CaseDocument document) {
        return upgrade(document, STEPS);
    }

    static CaseDocument upgrade(CaseDocument document, List<UnaryOperator<CaseDocument>> steps) {
        int current = steps.size() + 1;
        Optional<String> text = document.text("/purgewright");
        if (text.isEmpty() || !text.get().matches("-?\\d{1,9}")) {
            return document;
        }
        int version = Integer.parseInt(text.get());
        if (version < 1 || version > current) {
            throw new CaseException(List.of(new CaseProblem(
                    "UNKNOWN_VERSION",
                    "/purgewright",
                    document.line("/purgewright"),
                    document.column("/purgewright"),
                    version > current
                            ? "the case is written in layout " + version + ", this program knows layouts up to "
                                    + current
                            : "there is no layout " + version,
                    version > current ? "open it with a newer version of the program" : "write " + current)));
        }
        CaseDocument upgraded = document;
        for (int from = version; from < current; from++) {
            upgraded = steps.get(from - 1).apply(upgraded).withJson("/purgewright", Integer.toString(from + 1));
        }
        return upgraded;
    }
}
