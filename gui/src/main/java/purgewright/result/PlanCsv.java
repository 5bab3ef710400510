package purgewright.result;

import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.PlanResult.PlanEvent;

/** {@code plan -o}: the calendar, one line a point of the sequence, SI. */
public final class PlanCsv {
    private PlanCsv() {}

    /**
     * The whole file.
     *
     * @param hash of the case
     * @param version of this program
     */
    public static String write(PlanResult plan, String hash, String version, String engine) {
        StringBuilder text = new StringBuilder();
        text.append("# purgewright plan, version ").append(version).append('\n');
        text.append("# case ").append(hash).append('\n');
        text.append("# properties ").append(engine).append('\n');
        text.append("day,attempt,what,detail,gas [kg],left [kg],new bottles");
        for (int b = 1; b <= plan.supply().banks(); b++) {
            text.append(",bank ").append(b).append(" settled [Pa]");
        }
        text.append('\n');
        for (PlanEvent e : plan.events()) {
            text.append(e.day()).append(',').append(e.attempt()).append(',').append(e.what());
            text.append(',').append(CsvText.cell(e.detail()));
            text.append(',').append(RunCsv.number(e.gas())).append(',').append(RunCsv.number(e.left()));
            text.append(',').append(e.bottles());
            for (double p : e.pressures()) {
                text.append(',').append(RunCsv.number(p));
            }
            text.append('\n');
        }
        return text.toString();
    }
}
