package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.fluids.PropertyException;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;

/** Runs every rule over one solved operating point. A rule that cannot get a property yields "not established", never an exception. */
public final class Judge {
    /** Key of a rule that could not be evaluated. */
    public static final String UNJUDGED = "judging";

    private static final List<Map.Entry<String, Rule>> RULES = List.of(
            Map.entry("self-check", GuardRules::judge),
            Map.entry("barrier pressure", BarrierRules::pressure),
            Map.entry("barrier valve", BarrierRules::valves),
            Map.entry("gap velocity", BarrierRules::velocity),
            Map.entry("gap difference", BarrierRules::difference),
            Map.entry("flow direction", BarrierRules::direction),
            Map.entry("barrier purity", BarrierRules::purity),
            Map.entry("supply", BarrierRules::reverse),
            Map.entry("supply's capability", SupplyRules::judge),
            Map.entry("shared vents", CountRules::sharedVents),
            Map.entry("ingestion", CountRules::ingestion),
            Map.entry("vents", CountRules::ventReverse),
            Map.entry("burnt streams", StreamRules::hotterThanBurner),
            Map.entry("clearance", ClearanceRules::clearance),
            Map.entry("rubbing", ClearanceRules::rubbing),
            Map.entry("contact", ClearanceRules::contact),
            Map.entry("rub notices", ClearanceRules::rubNotices),
            Map.entry("notices", NoticeRules::judge),
            Map.entry("flammability", FlammabilityRules::cavities),
            Map.entry("mists", FlammabilityRules::mists),
            Map.entry("working seals", ReversalRules::seals),
            Map.entry("hot backflow", ReversalRules::hotBackflow),
            Map.entry("shut seals", ReversalRules::shutSeals),
            Map.entry("roles", ReversalRules::roles),
            Map.entry("vented gas", FlammabilityRules::vents),
            Map.entry("oxygen velocity", OxygenRules::velocity),
            Map.entry("dead ends", OxygenRules::deadEnds),
            Map.entry("condensing purge", PhaseRules::condensing),
            Map.entry("freezing neighbours", PhaseRules::freezingNeighbours),
            Map.entry("cold lines", PhaseRules::coldLines));

    private Judge() {}

    /** All findings, worst first. */
    public static List<Finding> judge(Setting setting) {
        List<Finding> out = new ArrayList<>();
        for (Map.Entry<String, Rule> rule : RULES) {
            try {
                out.addAll(rule.getValue().judge(setting));
            } catch (PropertyException e) {
                out.add(Draft.of(UNJUDGED, "/" + rule.getKey(), setting.scene())
                        .what("The rule \"" + rule.getKey() + "\" could not be evaluated: a property cannot be given")
                        .how(e.getMessage())
                        .source("range of the property equations")
                        .mend("another property engine, or a state inside the range")
                        .as(Verdict.NOT_ESTABLISHED));
            }
        }
        setting.streams()
                .unknown()
                .forEach((stream, why) -> out.add(Draft.of(UNJUDGED, "/streams/" + stream, setting.scene())
                        .what("Whether " + stream + " gives or takes oxygen is not known")
                        .how(why)
                        .source("element balance of the species")
                        .mend("state the species by formula")
                        .as(Verdict.NOT_ESTABLISHED)));
        out.addAll(CountRules.count(setting, out));
        return Verdicts.sorted(out);
    }
}
