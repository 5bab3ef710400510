package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Rotor;

/** Puts small cases together in code, for checks. SI. */
public final class CaseSketch {
    private final List<StreamDefinition> streams = new ArrayList<>();
    private final List<Cavity> cavities = new ArrayList<>();
    private final List<PassageSpec> passages = new ArrayList<>();
    private Rotor rotor = Rotor.STILL;

    /** A stream of one fluid. */
    public CaseSketch stream(String name, String fluid) {
        streams.add(new StreamDefinition.Single(name, fluid));
        return this;
    }

    /** Any stream. */
    public CaseSketch stream(StreamDefinition definition) {
        streams.add(definition);
        return this;
    }

    /** Rotor speed, rad/s. */
    public CaseSketch speed(double speed) {
        rotor = new Rotor(speed, 0, 0, 0, 0, 0, 0, List.of());
        return this;
    }

    /** A boundary. */
    public CaseSketch fixed(String name, String stream, double pressure, double temperature) {
        return cavity(name, stream, pressure, temperature, Double.NaN, Double.NaN, null, null);
    }

    /** A cavity to be solved, with a volume, m3, and a wall held at a temperature, K, by a conductance, W/K (0 for none). */
    public CaseSketch vessel(String name, double volume, double conductance, double temperature) {
        cavities.add(new Cavity(
                name,
                Role.OTHER,
                null,
                Double.NaN,
                Double.NaN,
                volume,
                Double.NaN,
                Double.NaN,
                null,
                conductance > 0 ? new Cavity.Wall(conductance, temperature, null) : null,
                Double.NaN));
        return this;
    }

    /** A cavity to be solved, without volume. */
    public CaseSketch free(String name) {
        return cavity(name, null, Double.NaN, Double.NaN, Double.NaN, Double.NaN, null, null);
    }

    /** A cavity with all its trimmings; NaN and null for what it has not. */
    public CaseSketch cavity(
            String name,
            String stream,
            double pressure,
            double temperature,
            double radius,
            double swirlRatio,
            Cavity.Disc disc,
            Cavity.Wall wall) {
        cavities.add(new Cavity(
                name,
                Role.OTHER,
                stream,
                pressure,
                temperature,
                Double.NaN,
                radius,
                swirlRatio,
                disc,
                wall,
                Double.NaN));
        return this;
    }

    /** A passage off the shaft; fields by name and value. */
    public CaseSketch passage(String name, String from, String to, String type, Object... fields) {
        return seal(name, from, to, type, Double.NaN, Double.NaN, fields);
    }

    /** A passage on the shaft; fields by name and value. */
    public CaseSketch seal(
            String name, String from, String to, String type, double radius, double clearance, Object... fields) {
        Map<String, Object> map = new HashMap<>();
        for (int i = 0; i < fields.length; i += 2) {
            map.put((String) fields[i], fields[i + 1]);
        }
        passages.add(new PassageSpec(
                name,
                from,
                to,
                type,
                1,
                radius,
                clearance,
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                Boolean.TRUE.equals(map.get("closed")),
                map));
        return this;
    }

    /** The case. */
    public Case make() {
        return new Case(
                Map.of(),
                new Case.Surroundings(101325, 288.15),
                rotor,
                List.copyOf(streams),
                List.copyOf(cavities),
                List.copyOf(passages),
                List.of(),
                Map.of(),
                Map.of());
    }
}
