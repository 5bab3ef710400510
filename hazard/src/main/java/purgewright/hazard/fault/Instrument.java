package purgewright.hazard.fault;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.flammability.Flammability;
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
 * @param measures pressure, temperature, flow, oxygen or fuel (mole fractions)
 * @param place name of the cavity or passage
 * @param uncertainty half the band, SI; of a flow relative when {@code relative}
 * @param relative whether the uncertainty is a share of the reading
 * @param lowRedline trips below, SI; NaN for none
 * @param highRedline trips above, SI; NaN for none
 * @param delay lag and persistence together, s; NaN when the case does not say
 */
public record Instrument(
        String name,
        String measures,
        String place,
        double uncertainty,
        boolean relative,
        double lowRedline,
        double highRedline,
        double delay) {
    /** Uncertainty of a mole fraction where the case states none [invented]. */
    private static final double CONTENT = 0.005;

    /**
     * The instruments of a case: those it states, else a pressure and a temperature in every solved barrier, supply and drain cavity
     * and a flow in every feed into a barrier, with the default uncertainties of the criteria. Where a case states instruments, those
     * of a kind that is not known here see nothing.
     */
    public static List<Instrument> of(Case model, BarrierLayout layout, Criteria criteria) {
        List<Instrument> out = new ArrayList<>();
        if (model.extras().get("instruments") instanceof List<?> stated) {
            for (Object each : stated) {
                if (each instanceof Map<?, ?> m) {
                    String measures = String.valueOf(m.get("measures"));
                    Object place = m.get("flow".equals(measures) ? "passage" : "cavity");
                    if (place != null
                            && List.of("pressure", "temperature", "flow", "oxygen", "fuel")
                                    .contains(measures)) {
                        boolean own = m.get("uncertainty") instanceof Number;
                        double u = own ? ((Number) m.get("uncertainty")).doubleValue() : fallback(measures, criteria);
                        out.add(new Instrument(
                                String.valueOf(m.get("name")),
                                measures,
                                String.valueOf(place),
                                u,
                                "flow".equals(measures) && !own,
                                number(m.get("low redline"), Double.NaN),
                                number(m.get("high redline"), Double.NaN),
                                delay(m)));
                    }
                }
            }
            if (!stated.isEmpty()) {
                return out;
            }
        }
        for (Cavity c : model.cavities()) {
            if (!c.fixed() && (layout.inertFed(c.name()) || c.role() == Role.DRAIN)) {
                out.add(usual("pressure of " + c.name(), "pressure", c.name(), criteria));
                out.add(usual("temperature of " + c.name(), "temperature", c.name(), criteria));
            }
        }
        for (String feed : layout.feeds().keySet()) {
            out.add(usual("flow through " + feed, "flow", feed, criteria));
        }
        return out;
    }

    private static Instrument usual(String name, String measures, String place, Criteria criteria) {
        return new Instrument(
                name,
                measures,
                place,
                fallback(measures, criteria),
                "flow".equals(measures),
                Double.NaN,
                Double.NaN,
                Double.NaN);
    }

    /** Lag and the samples that must follow each other; NaN when neither is stated. */
    private static double delay(Map<?, ?> m) {
        double lag = number(m.get("lag"), Double.NaN);
        double samples = number(m.get("persistence"), Double.NaN) / number(m.get("sample rate"), Double.NaN);
        if (Double.isNaN(lag) && Double.isNaN(samples)) {
            return Double.NaN;
        }
        return (Double.isNaN(lag) ? 0 : lag) + (Double.isNaN(samples) ? 0 : samples);
    }

    private static double number(Object value, double otherwise) {
        return value instanceof Number n ? n.doubleValue() : otherwise;
    }

    private static double fallback(String measures, Criteria criteria) {
        return switch (measures) {
            case "pressure" -> criteria.get(Limit.INSTRUMENT_UNCERTAINTY);
            case "temperature" -> criteria.get(Limit.TEMPERATURE_UNCERTAINTY);
            case "oxygen", "fuel" -> CONTENT;
            default -> criteria.get(Limit.FLOW_UNCERTAINTY);
        };
    }

    /** Reading, SI; NaN when the place is not in the result. */
    public double reading(Converged solve) {
        if ("flow".equals(measures)) {
            PassageState p = solve.passages().get(place);
            return p == null ? Double.NaN : p.flow().massFlow();
        }
        CavityState c = solve.cavities().get(place);
        if (c == null) {
            return Double.NaN;
        }
        return switch (measures) {
            case "pressure" -> c.state().pressure();
            case "oxygen" -> Flammability.freeOxygen(c.moleFractions());
            case "fuel" ->
                Flammability.fuels(c.moleFractions()).values().stream()
                        .mapToDouble(Double::doubleValue)
                        .sum();
            default -> c.state().temperature();
        };
    }

    /** Whether a reading is past a redline. */
    public boolean tripped(double reading) {
        return reading < lowRedline || reading > highRedline;
    }

    /** Whether it can tell a fault from the state as stated at all: not when a redline is passed there already. */
    public boolean tripped(Converged asStated) {
        return tripped(reading(asStated));
    }

    /** Change of the reading over its uncertainty; above 1 it is seen. With a redline: how far beyond it, in the same unit, plus 1. */
    public double significance(Converged before, Converged after) {
        return significance(reading(before), reading(after));
    }

    /**
     * The same for two readings. One that has a redline is seen only beyond it by the uncertainty, so that a biased reading trips too; one
     * that is past it before anything has failed tells nothing: 0.
     */
    public double significance(double before, double after) {
        if (tripped(before)) {
            return 0;
        }
        double band = Math.max(relative ? uncertainty * Math.abs(before) : uncertainty, Double.MIN_NORMAL);
        if (!Double.isNaN(lowRedline) || !Double.isNaN(highRedline)) {
            double below = (lowRedline - after) / band;
            double above = (after - highRedline) / band;
            return Double.isNaN(below) ? above : Double.isNaN(above) ? below : Math.max(below, above);
        }
        double change = Math.abs(after - before);
        return change == 0 ? 0 : change / band;
    }
}
