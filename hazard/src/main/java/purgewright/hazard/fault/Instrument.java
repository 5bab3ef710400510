package purgewright.hazard.fault;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * Something that reads a pressure, temperature or flow.
 *
 * @param name shown
 * @param measures pressure, temperature or flow
 * @param place name of the cavity or passage
 * @param uncertainty half the band, SI; of a flow relative when {@code relative}
 * @param relative whether the uncertainty is a share of the reading
 */
public record Instrument(String name, String measures, String place, double uncertainty, boolean relative) {

    /**
     * The instruments of a case: those it states, else a pressure and a temperature in every solved barrier, supply and drain cavity
     * and a flow in every feed into a barrier, with the default uncertainties of the criteria.
     */
    public static List<Instrument> of(Case model, BarrierLayout layout, Criteria criteria) {
        List<Instrument> out = new ArrayList<>();
        if (model.extras().get("instruments") instanceof List<?> stated) {
            for (Object each : stated) {
                if (each instanceof Map<?, ?> m) {
                    String measures = String.valueOf(m.get("measures"));
                    Object place = m.get("flow".equals(measures) ? "passage" : "cavity");
                    if (place != null
                            && List.of("pressure", "temperature", "flow").contains(measures)) {
                        boolean own = m.get("uncertainty") instanceof Number;
                        double u = own ? ((Number) m.get("uncertainty")).doubleValue() : fallback(measures, criteria);
                        out.add(new Instrument(
                                String.valueOf(m.get("name")),
                                measures,
                                String.valueOf(place),
                                u,
                                "flow".equals(measures) && !own));
                    }
                }
            }
        }
        if (!out.isEmpty()) {
            return out;
        }
        for (Cavity c : model.cavities()) {
            if (!c.fixed() && (layout.inertFed(c.name()) || c.role() == Role.DRAIN)) {
                out.add(new Instrument(
                        "pressure of " + c.name(), "pressure", c.name(), fallback("pressure", criteria), false));
                out.add(new Instrument(
                        "temperature of " + c.name(),
                        "temperature",
                        c.name(),
                        fallback("temperature", criteria),
                        false));
            }
        }
        for (String feed : layout.feeds().keySet()) {
            out.add(new Instrument("flow through " + feed, "flow", feed, fallback("flow", criteria), true));
        }
        return out;
    }

    private static double fallback(String measures, Criteria criteria) {
        return switch (measures) {
            case "pressure" -> criteria.get(Limit.INSTRUMENT_UNCERTAINTY);
            case "temperature" -> criteria.get(Limit.TEMPERATURE_UNCERTAINTY);
            default -> criteria.get(Limit.FLOW_UNCERTAINTY);
        };
    }

    /** Reading, SI; NaN when the place is not in the result. */
    double reading(Converged solve) {
        if ("flow".equals(measures)) {
            PassageState p = solve.passages().get(place);
            return p == null ? Double.NaN : p.flow().massFlow();
        }
        CavityState c = solve.cavities().get(place);
        if (c == null) {
            return Double.NaN;
        }
        return "pressure".equals(measures) ? c.state().pressure() : c.state().temperature();
    }

    /** Change of the reading over its uncertainty; above 1 it is seen. */
    public double significance(Converged before, Converged after) {
        double a = reading(before);
        double b = reading(after);
        double band = relative ? uncertainty * Math.abs(a) : uncertainty;
        double change = Math.abs(b - a);
        return change == 0 ? 0 : change / Math.max(band, Double.MIN_NORMAL);
    }
}
