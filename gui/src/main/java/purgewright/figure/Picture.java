package purgewright.figure;

import java.util.List;
import purgewright.hazard.finding.Finding;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult;

/**
 * What a barrier section is drawn from.
 *
 * @param model the case of the phase shown
 * @param solved its solution; null when there is none
 * @param findings of the phase; empty when not judged
 * @param reference a frozen solution to compare with, or null
 * @param readout units of the numbers
 * @param theme colours
 * @param layer what the skyline shows
 * @param width least width in drawing units; the drawing takes more when it must
 */
public record Picture(
        Case model,
        SolveResult.Converged solved,
        List<Finding> findings,
        SolveResult.Converged reference,
        Readout readout,
        Theme theme,
        Layer layer,
        double width) {

    /** What the skyline shows. */
    public enum Layer {
        /** Pressure on a logarithmic axis: small drains and high pumped pressures both read. */
        PRESSURE_LOG,
        /** Pressure on a linear axis from zero: differences read as lengths. */
        PRESSURE_LINEAR,
        /** Temperature on a linear axis. */
        TEMPERATURE
    }

    /** A picture in SI units on light paper. */
    public static Picture of(Case model, SolveResult.Converged solved, List<Finding> findings) {
        return new Picture(model, solved, findings, null, Readout.SI, Theme.LIGHT, Layer.PRESSURE_LOG, 0);
    }

    /** With another theme. */
    public Picture in(Theme other) {
        return new Picture(model, solved, findings, reference, readout, other, layer, width);
    }

    /** With other units. */
    public Picture in(Readout other) {
        return new Picture(model, solved, findings, reference, other, theme, layer, width);
    }
}
