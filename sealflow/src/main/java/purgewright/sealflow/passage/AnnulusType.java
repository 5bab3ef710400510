package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.gap.GapKind;
import purgewright.sealflow.model.PassageSpec;

/**
 * A plain annulus: fixed bushing or floating ring, or several equal ones in series.
 *
 * <p>n rings are one gap of n times the length; the head at each exit but the last is lost and the inlet loss comes anew, (n - 1)(1 + xi)
 * velocity heads, spread along the gap like friction. Valid while the chambers between them are wide against the gap.
 */
final class AnnulusType implements PassageType {
    private final boolean floating;

    AnnulusType(boolean floating) {
        this.floating = floating;
    }

    @Override
    public String key() {
        return floating ? "floating ring" : "bushing";
    }

    @Override
    public String description() {
        return floating
                ? "A ring that floats on the shaft with a close plain gap; locks up off centre."
                : "A fixed plain gap around the shaft.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                Fields.RADIUS,
                Fields.CLEARANCE,
                PassageField.positive("length", Dimension.LENGTH, "Axial length of the gap."),
                PassageField.optionalCount(
                        "rings", "1", 1, 20, "Equal rings one behind the other, each of that length."),
                PassageField.optional(
                        "eccentricity",
                        Dimension.NUMBER,
                        floating ? "0.5" : "0",
                        0,
                        1,
                        "Offset over clearance, 0 centred to 1 touching; the bounds of the model take 0 and 1."),
                Fields.ROUGHNESS,
                Fields.INLET_LOSS,
                Fields.SEGMENT,
                Fields.STATOR_TEMPERATURE,
                Fields.STATOR_EXPANSION);
    }

    @Override
    public String page() {
        return "bushing-and-ring";
    }

    @Override
    public SealKind kind() {
        return SealKind.CLOSE;
    }

    @Override
    public GapKind gap(PassageSpec spec) {
        return floating ? GapKind.FLOATING : GapKind.RADIAL;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        double radius = Fields.radius(spec);
        double clearance = Fields.clearance(spec, conditions, spec.clearance());
        double rings = Math.max(1, spec.number("rings", 1));
        double inletLoss = spec.number("inlet loss", 0.3);
        double length = rings * Fields.positive(spec, "length", "m");
        double eccentricity;
        switch (conditions.bound()) {
            case LOW:
                eccentricity = 0;
                break;
            case HIGH:
                eccentricity = 1;
                break;
            default:
                eccentricity = spec.number("eccentricity", floating ? 0.5 : 0);
                break;
        }
        double surface = Math.abs(conditions.rotorSpeed()) * radius;
        FrictionSlot slot = new FrictionSlot(
                2 * clearance,
                length,
                Friction.SLOT,
                spec.number("roughness", 0.8e-6),
                inletLoss,
                (rings - 1) * (1 + inletLoss),
                surface,
                FrictionSlot.laminarFactor(eccentricity),
                FrictionSlot.turbulentFactor(eccentricity));
        double area = 2 * Math.PI * clearance * (radius + clearance / 2);
        return new SlotSeal(
                spec,
                slot,
                area,
                0,
                radius,
                clearance,
                length,
                conditions.rotorSpeed(),
                Fields.slot(conditions.bound())) {
            @Override
            void note(Notices notices, FluidState up, double down, double mass, double viscosity) {
                notices.range("annulus", "clearance / radius", clearance / radius, 0, 0.1);
            }
        };
    }
}
