package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.sealflow.model.PassageSpec;

/**
 * What drives flow through a passage at its own radius: the pressures of its ends, and what the rotor and gravity add between them. Written
 * from the case's fields alone and by other code than the passages', so that a finished result can be held against it.
 *
 * <pre>{@code
 * drive = p_from - p_to + rho H            rho anywhere between the densities of the ends
 * face, from at its outer edge:  H = -3/20 w^2 (ro^2 - ri^2),   from at its inner edge: the opposite
 * line:                          H = -g elevation
 * slinger:                       drive = p_from - p_to - held where that is positive; a slinger never drives backwards
 *                                held = rho (k w)^2 (ro^2 - ri^2) / 2, or 6 mu w ri L / (11 c^2) with grooves
 * }</pre>
 *
 * <p>A rim gap has no head of its own: what a disc pumps in it takes from the gap's own outflow, at no net flow. For k the least of the
 * band is taken, 0.9 of the nominal; the pressure that a slinger still lets by while it holds is 0.02 of what it holds (the round corner of its law) and
 * one millionth of the pressure difference.
 *
 * @param least Pa, positive from {@code from} to {@code to}
 * @param most Pa
 * @param work J/kg that the rotor does on what flows from {@code from} to {@code to}; negative where it brakes
 * @param more whether the passage may raise the pressure further by what is not in the result: spiral grooves by what the faces' balance leaves them
 */
public record DrivingHead(double least, double most, double work, boolean more) {
    private static final double GRAVITY = 9.80665;
    /** Least of the band of a slinger's swirl, over the nominal. */
    private static final double LEAST_HOLD = 0.9;
    /** Round corner of a slinger's law, over the pressure that it holds. */
    private static final double CORNER = 0.02;

    private static final double TRACE = 1e-6;

    /**
     * The drive of a passage between two states, as its type says.
     *
     * @param gap running clearance, m; counts for grooves only
     * @param speed of the rotor, rad/s
     */
    public static DrivingHead of(PassageSpec spec, double gap, double speed, FluidState from, FluidState to) {
        return PassageTypes.find(spec.type())
                .map(type -> type.drive(spec, gap, speed, from, to))
                .orElseGet(() -> pressures(from, to));
    }

    /** Nothing but the pressures of the ends. */
    static DrivingHead pressures(FluidState from, FluidState to) {
        double x = from.pressure() - to.pressure();
        return new DrivingHead(x, x, 0, false);
    }

    static DrivingHead face(PassageSpec spec, double speed, FluidState from, FluidState to, boolean grooved) {
        double head = 0.15 * squares(spec, speed);
        return withHead("inner".equals(spec.word("from at", "outer")) ? head : -head, from, to, true, grooved);
    }

    static DrivingHead line(PassageSpec spec, FluidState from, FluidState to) {
        return withHead(-GRAVITY * spec.number("elevation", 0), from, to, false, false);
    }

    static DrivingHead slinger(PassageSpec spec, double gap, double speed, FluidState from, FluidState to) {
        double x = from.pressure() - to.pressure();
        if (x <= 0) {
            return pressures(from, to);
        }
        double held = held(spec, gap, speed, squares(spec, speed), from);
        double most = Math.max(0, x - held) + CORNER * held + TRACE * x;
        return new DrivingHead(most, most, 0, false);
    }

    private static double squares(PassageSpec spec, double speed) {
        double inner = spec.number("inner radius", 0);
        double outer = spec.number("outer radius", 0);
        return speed * speed * (outer * outer - inner * inner);
    }

    private static DrivingHead withHead(double head, FluidState from, FluidState to, boolean rotor, boolean more) {
        double x = from.pressure() - to.pressure();
        double light = Math.min(from.density(), to.density()) * head;
        double heavy = Math.max(from.density(), to.density()) * head;
        return new DrivingHead(x + Math.min(light, heavy), x + Math.max(light, heavy), rotor ? head : 0, more);
    }

    private static double held(PassageSpec spec, double gap, double speed, double squares, FluidState from) {
        String surface = spec.word("surface", "bladed");
        if ("grooved".equals(surface)) {
            double inner = spec.number("inner radius", 0);
            double length = spec.number("length", Math.max(spec.number("outer radius", 0) - inner, gap));
            return 6 * from.fluid().viscosity(from) * Math.abs(speed) * inner * length / (11 * gap * gap);
        }
        double given = spec.number("swirl ratio", 0);
        double nominal = given > 0 ? given : "bladed".equals(surface) ? 0.9 : 0.5;
        return 0.5 * from.density() * Math.pow(Math.min(1, LEAST_HOLD * nominal), 2) * squares;
    }

    /** Drive in the direction of flow, the most of it, Pa; negative where the flow goes against all of it. */
    public double along(boolean forward) {
        return forward ? most : -least;
    }
}
