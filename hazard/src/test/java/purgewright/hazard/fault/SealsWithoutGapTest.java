package purgewright.hazard.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.hazard.Fakes;
import purgewright.hazard.Pumps;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.criteria.Criteria;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageType.SealKind;
import purgewright.sealflow.passage.PassageTypes;

/** Whatever type a seal is of, it wears and fails open: with a number of its own, or by a stated factor on its flow. */
class SealsWithoutGapTest {
    private static Case pump(String type, double clearance, Map<String, Object> fields) {
        return Pumps.passage(
                Fakes.pump(),
                new PassageSpec(
                        "ring A",
                        "barrier",
                        "oxygen drain",
                        type,
                        1,
                        Double.NaN,
                        clearance,
                        Double.NaN,
                        Double.NaN,
                        0.5,
                        Double.NaN,
                        false,
                        fields));
    }

    private static PassageSpec after(Case model, String fault) {
        StreamTable streams = StreamTable.of(new Fakes.Engine().mixer(model.streams()));
        List<Fault> all = Faults.automatic(model, BarrierLayout.of(model, streams, Faults::kind), Criteria.DEFAULT);
        Fault wanted = all.stream()
                .filter(f -> f.name().equals(fault + ": ring A"))
                .findFirst()
                .orElseThrow();
        return wanted.change().apply(model).passage("ring A");
    }

    @Test
    void everyTypeOfSealHasAWornAndAFailedOpenFaultThatChangesIt() {
        for (PassageType type : PassageTypes.all()) {
            if (type.kind() == SealKind.DUCT) {
                continue;
            }
            Case model = pump(type.key(), Double.NaN, Map.of("balance radius", 0.03, "bristle diameter", 1e-4));
            for (String fault : List.of("worn", "failed open")) {
                assertThat(after(model, fault)).as(type.key() + " " + fault).isNotEqualTo(model.passage("ring A"));
            }
        }
    }

    @Test
    void aMeasuredLeakGrowsAsItsLawSays() {
        Case orifice = pump("measured", Double.NaN, Map.of("law", "orifice"));
        assertThat(after(orifice, "worn").calibrationFactor()).isCloseTo(0.5 * Math.pow(2, 1.5), within(1e-12));
        assertThat(after(orifice, "failed open").calibrationFactor()).isCloseTo(0.5 * Math.pow(10, 1.5), within(1e-12));
        Case laminar = pump("measured", Double.NaN, Map.of("law", "laminar"));
        assertThat(after(laminar, "worn").calibrationFactor()).isCloseTo(0.5 * 8, within(1e-12));
        Case lip = pump("static seal", Double.NaN, Map.of("test flow", 1e-6));
        assertThat(after(lip, "failed open").calibrationFactor()).isCloseTo(0.5 * 1000, within(1e-9));
        assertThat(Faults.openedWithoutGap(lip, Criteria.DEFAULT))
                .singleElement()
                .asString()
                .contains("ring A: worn 8.00 times the flow, failed open 1000 times the flow", "[invented]");
        assertThat(Faults.openedWithoutGap(Fakes.pump(), Criteria.DEFAULT)).isEmpty();
    }

    @Test
    void aPackLosesItsBristlesAndKeepsNoCalibrationThatMadeItTighter() {
        Case pack = pump("brush", Double.NaN, Map.of("bristle diameter", 7e-5, "fence height", 1e-3));
        assertThat(after(pack, "worn").calibrationFactor()).isEqualTo(1);
        PassageSpec gone = after(pack, "failed open");
        assertThat(gone.number("effective clearance", 0)).isEqualTo(1e-3);
        assertThat(gone.calibrationFactor()).isEqualTo(1);
        Case stated = pump("brush", Double.NaN, Map.of("effective clearance", 1e-4));
        assertThat(after(stated, "failed open").number("effective clearance", 0))
                .isCloseTo(1e-3, within(1e-12));
    }

    @Test
    void aFaceWhoseGapForcesSetHangsOpen() {
        Case face = pump("hydrodynamic face", Double.NaN, Map.of("balance radius", 0.03, "spring force", 50.0));
        assertThat(after(face, "worn").calibrationFactor()).isCloseTo(0.5 * 8, within(1e-12));
        PassageSpec open = after(face, "failed open");
        assertThat(open.fields()).doesNotContainKey("balance radius").containsEntry("gap", 100e-6);
        assertThat(open.clearance()).isEqualTo(100e-6);
        // A gap that the forces overrule opens nothing; one that a stiffness is stated for does.
        Case overruled = pump("face", 5e-6, Map.of("balance radius", 0.03, "gap", 5e-6));
        assertThat(Edits.opens(overruled.passage("ring A"))).isFalse();
        assertThat(after(overruled, "failed open").clearance()).isEqualTo(100e-6);
        Case stiff = pump("face", 5e-6, Map.of("balance radius", 0.03, "gap", 5e-6, "film stiffness", 1e8));
        assertThat(after(stiff, "worn").clearance()).isEqualTo(1e-5);
        assertThat(after(stiff, "failed open").clearance()).isCloseTo(5e-5, within(1e-12));
        assertThat(after(stiff, "failed open").fields()).doesNotContainKey("film stiffness");
    }
}
