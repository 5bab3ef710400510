package purgewright.result;

import java.io.IOException;
import java.util.List;
import purgewright.sealflow.casefile.CaseProblem;

/** What a command prints with {@code --json} when it has no result. */
public final class ErrorJson {
    private ErrorJson() {}

    /**
     * @param code exit code
     * @param problems at least one; the first is {@code error}, all of them are {@code errors}
     */
    public static String write(int code, List<CaseProblem> problems) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT);
            json.object("error", error -> problem(error, code, problems.get(0)));
            json.objects("errors", problems, (error, problem) -> problem(error, code, problem));
        });
    }

    private static void problem(JsonText json, int code, CaseProblem problem) throws IOException {
        json.field("code", code)
                .field("key", problem.key())
                .field("place", problem.place())
                .field("line", problem.line())
                .field("column", problem.column())
                .field("message", problem.message())
                .field("suggestion", problem.suggestion());
    }
}
