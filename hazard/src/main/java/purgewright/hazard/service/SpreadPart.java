package purgewright.hazard.service;

import java.util.List;
import purgewright.hazard.studies.SpreadResult.Identity;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.Tally;

/**
 * Samples of one part of a plan, so that parts run on several machines and are put together afterwards.
 *
 * @param identity which case, by which engine
 * @param settings with the part
 * @param caseText the case, as JSON text
 * @param outputs places followed
 * @param complete false when it was cancelled
 * @param tally what the samples gave
 */
public record SpreadPart(
        Identity identity,
        SpreadSettings settings,
        String caseText,
        List<String> outputs,
        boolean complete,
        Tally.State tally) {}
