package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.model.PassageSpec;

/** A segmented carbon ring: the film under its dam and the joints between its segments. */
final class SegmentedRingType implements PassageType {
    @Override
    public String key() {
        return "segmented ring";
    }

    @Override
    public String description() {
        return "A circumferential carbon ring in segments: a thin film under the dam, and open joints.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                Fields.RADIUS,
                PassageField.count("segments", 1, 60, "Number of segments, and of joints."),
                PassageField.optional(
                        "pad gap",
                        Dimension.LENGTH,
                        "2 um",
                        1e-8,
                        1e-3,
                        "Film under the dam: 1 to 5 um when carried by a film or in light contact (common practice)."),
                PassageField.optional(
                        "dam length", Dimension.LENGTH, "1 mm", 1e-5, 1, "Axial length of the sealing dam."),
                PassageField.optional(
                        "joint area",
                        Dimension.AREA,
                        "0 mm2",
                        0,
                        1,
                        "Open area of one joint; 0 for overlapping joints."));
    }

    @Override
    public String page() {
        return "segmented-ring";
    }

    @Override
    public SealKind kind() {
        return SealKind.CLOSE;
    }

    @Override
    public boolean rubs() {
        return true;
    }

    @Override
    public boolean segmented() {
        return true;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        double radius = Fields.radius(spec);
        double gap = spec.number("pad gap", 2e-6);
        // Film and joints decide the leak and are hardly known: a factor 5 in flow (PUR-21's band), 5^(1/3) in the
        // film.
        switch (conditions.bound()) {
            case LOW:
                gap /= 1.71;
                break;
            case HIGH:
                gap *= 1.71;
                break;
            default:
                break;
        }
        double length = spec.number("dam length", 1e-3);
        double speed = conditions.rotorSpeed();
        FrictionSlot slot = new FrictionSlot(2 * gap, length, Friction.SLOT, 0, 0.3, 0, Math.abs(speed) * radius, 1, 1);
        double joints = 0.7 * spec.number("segments", 1) * spec.number("joint area", 0);
        double film = gap;
        return new SlotSeal(
                spec,
                slot,
                2 * Math.PI * radius * film,
                joints,
                radius,
                film,
                length,
                speed,
                Fields.slot(conditions.bound())) {
            @Override
            void note(Notices notices, FluidState up, double down, double mass, double viscosity) {
                notices.estimate("segmented ring", "pad gap, m", film);
                FilmLaws.slip(notices, up, down, viscosity, film);
                notices.notEstablished(
                        up.phase() == Phase.TWO_PHASE || Throttle.dense(up),
                        "segmented ring",
                        "liquid or two-phase in the film");
            }
        };
    }
}
