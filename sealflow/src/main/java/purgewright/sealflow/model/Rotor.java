package purgewright.sealflow.model;

import java.util.List;

/**
 * The rotor: speed, allowances and the segments whose growth moves clearances. SI.
 *
 * @param speed rad/s
 * @param whirl radial whirl amplitude, m
 * @param bearingPlay radial, m
 * @param runOut m
 * @param offset radial offset of housing to shaft, m
 * @param tolerance drawing tolerance on a clearance, m
 * @param thrustMovement axial, m
 * @param segments may be empty
 */
public record Rotor(
        double speed,
        double whirl,
        double bearingPlay,
        double runOut,
        double offset,
        double tolerance,
        double thrustMovement,
        List<Segment> segments) {

    /** A rotor that stands still with no allowances. */
    public static final Rotor STILL = new Rotor(0, 0, 0, 0, 0, 0, 0, List.of());

    /**
     * A length of rotor.
     *
     * @param name as in the case
     * @param boreRadius m, 0 for solid
     * @param outerRadius m
     * @param temperature K in running
     * @param modulus Young's, Pa
     * @param poisson ratio
     * @param density kg/m3
     * @param expansion 1/K
     * @param thin true for a ring, false for a disc or shaft
     */
    public record Segment(
            String name,
            double boreRadius,
            double outerRadius,
            double temperature,
            double modulus,
            double poisson,
            double density,
            double expansion,
            boolean thin) {}
}
