package purgewright.sealflow.network;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Predicate;
import purgewright.sealflow.Notice;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.rotating.AxialForce;

/**
 * Forces of the cavities' pressures on the disc faces of a solved case.
 *
 * <p>Each face is pushed away from its cavity. The thrust on the rotor is the difference of the faces that look forward and of those that
 * look aft; it is added up where every disc of the case says which way it looks.
 */
public final class AxialForces {
    private AxialForces() {}

    /**
     * @param force N, away from the cavity; NaN where the swirl would pull a liquid below zero pressure
     * @param area m2
     * @param aft +1 for a face that is pushed aft, -1 for one that is pushed forward, 0 where the case does not say
     */
    public record Face(double force, double area, int aft) {
        /** Mean pressure on the face, Pa. */
        public double meanPressure() {
            return force / area;
        }
    }

    /**
     * By cavity, in the case's order, then by face seal; a cavity without a disc and a seal that does not say which way it looks are left out.
     *
     * @param swirlRatio of cavities that state none, as the solver used it
     */
    public static Map<String, Face> of(Case model, SolveResult.Converged result, double swirlRatio) {
        Map<String, Face> faces = new LinkedHashMap<>();
        for (Cavity cavity : model.cavities()) {
            Cavity.Disc disc = cavity.disc();
            CavityState state = result.cavities().get(cavity.name());
            if (disc == null || state == null) {
                continue;
            }
            double ratio = Double.isNaN(cavity.swirlRatio())
                    ? foundSwirl(result, cavity.name(), swirlRatio)
                    : cavity.swirlRatio();
            double swirl =
                    Double.isNaN(cavity.radius()) ? 0 : ratio * model.rotor().speed();
            faces.put(
                    cavity.name(),
                    new Face(
                            AxialForce.force(
                                    state.state(), swirl, cavity.radius(), disc.innerRadius(), disc.outerRadius()),
                            AxialForce.area(disc.innerRadius(), disc.outerRadius()),
                            disc.aft()));
        }
        for (PassageSpec spec : model.passages()) {
            String looks = spec.word("looks", "unstated");
            if (looks.equals("unstated")) {
                continue;
            }
            double inner = spec.number("inner radius", 0);
            double outer = spec.number("outer radius", 0);
            double force = found(
                    result, "/passages/" + spec.name(), n -> Results.FILM_FORCE.equals(n.get("constant")), Double.NaN);
            faces.put(
                    spec.name(),
                    new Face(force, spec.count() * AxialForce.area(inner, outer), looks.equals("forward") ? 1 : -1));
        }
        return faces;
    }

    /**
     * Thrust of the faces on the rotor, N, positive aft; NaN without a face, or where one does not say which way it looks. Of the faces alone:
     * what acts on the ends of the shaft, on steps and on impellers' inlets is not in it.
     */
    public static double thrust(Map<String, Face> faces) {
        double sum = faces.isEmpty() ? Double.NaN : 0;
        for (Face face : faces.values()) {
            sum += face.aft() == 0 ? Double.NaN : face.aft() * face.force();
        }
        return sum;
    }

    /** The swirl that the solver found from the through-flow, which it says with the cavity; else the default. */
    private static double foundSwirl(SolveResult.Converged result, String cavity, double swirlRatio) {
        return found(result, "/cavities/" + cavity, n -> Results.CORE_SWIRL.equals(n.get("model")), swirlRatio);
    }

    private static double found(
            SolveResult.Converged result, String place, Predicate<Map<String, Object>> which, double otherwise) {
        return result.notices().stream()
                .filter(n -> n.key() == Notice.Key.ESTIMATE && n.place().equals(place) && which.test(n.values()))
                .map(n -> (Double) n.values().get("value"))
                .findFirst()
                .orElse(otherwise);
    }
}
