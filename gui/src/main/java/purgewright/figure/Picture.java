package purgewright.figure;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
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
 * @param redlines at which the machine is stopped
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
        List<Redline> redlines,
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
        TEMPERATURE,
        /** Share of each stream by mass on a logarithmic axis: a trace that got across shows. */
        CONCENTRATION
    }

    /**
     * A reading of a cavity at which the machine is stopped.
     *
     * @param cavity its name
     * @param pressure true for a pressure, false for a temperature
     * @param value SI
     * @param lowest true when it trips below, false above
     * @param stated true when the case states it, false when it is proposed
     * @param phases in which it holds; empty: in all
     */
    public record Redline(
            String cavity, boolean pressure, double value, boolean lowest, boolean stated, List<String> phases) {
        /** True when it holds in a phase. */
        public boolean in(String phase) {
            return phases.isEmpty() || phases.contains(phase);
        }
    }

    /** Redlines that the case's instruments state, on pressures and temperatures of cavities. */
    public static List<Redline> stated(Case model) {
        List<Redline> out = new ArrayList<>();
        if (model.extras().get("instruments") instanceof List<?> instruments) {
            for (Object each : instruments) {
                if (each instanceof Map<?, ?> m && m.get("cavity") != null) {
                    boolean pressure = "pressure".equals(m.get("measures"));
                    if (!pressure && !"temperature".equals(m.get("measures"))) {
                        continue;
                    }
                    if (m.get("low redline") instanceof Number low) {
                        out.add(new Redline(
                                m.get("cavity").toString(), pressure, low.doubleValue(), true, true, List.of()));
                    }
                    if (m.get("high redline") instanceof Number high) {
                        out.add(new Redline(
                                m.get("cavity").toString(), pressure, high.doubleValue(), false, true, List.of()));
                    }
                }
            }
        }
        return out;
    }

    /** A picture in SI units on light paper. */
    public static Picture of(Case model, SolveResult.Converged solved, List<Finding> findings) {
        return new Picture(
                model, solved, findings, null, stated(model), Readout.SI, Theme.LIGHT, Layer.PRESSURE_LOG, 0);
    }

    /** With another theme. */
    public Picture in(Theme other) {
        return new Picture(model, solved, findings, reference, redlines, readout, other, layer, width);
    }

    /** With other units. */
    public Picture in(Readout other) {
        return new Picture(model, solved, findings, reference, redlines, other, theme, layer, width);
    }

    /** With another layer in the skyline. */
    public Picture showing(Layer other) {
        return new Picture(model, solved, findings, reference, redlines, readout, theme, other, width);
    }
}
