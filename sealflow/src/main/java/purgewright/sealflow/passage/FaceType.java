package purgewright.sealflow.passage;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoublePredicate;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.PassageSpec;

/**
 * A face seal: radial film between a turning and a still face; at a fixed gap, or at the gap where opening and closing forces meet.
 *
 * <p>Flow is the friction slot's along the log-mean perimeter, so that the laminar limit is m = pi h^3 / (6 mu ln(ro/ri)) integral of rho
 * dp; inertia, exit choke, flashing and turbulence come with it. The turning face adds the head 3/20 w^2 (ro^2 - ri^2) outwards. Slip
 * multiplies laminar flow by 1 + 6 Kn, Kn at the mean pressure, up to Kn = 0.1.
 *
 * <pre>{@code closing = po pi (ro^2 - rb^2) + pi pi (rb^2 - ri^2) + spring
 * opening = pi (ro^2 - ri^2) (plow + K (phigh - plow))}</pre>
 *
 * <p>K by {@link FilmLaws} for the coned film, narrow faces. A hydrodynamic face has spiral grooves from its outer edge in: pressure at their
 * end is raised by {@code 3 mu w g1 (ro^2 - rg^2) / h^2}, g1 after E. A. Muijderman, Spiral Groove Bearings, 1966 [from memory], limited for a
 * gas to the ratio of groove to land gap; leakage passes the dam, inwards at the pressure that the grooves make.
 *
 * <p>Where no film holds, faces touch: effective gap 1.27 um at rest, 5.08 um turning, a factor 2 either way (R. E. Burcham, NASA SP-8121, 1978,
 * 2.2.5 and 3.2.5, transcription).
 */
final class FaceType implements PassageType {
    private static final double STILL_CONTACT = 1.27e-6;
    private static final double TURNING_CONTACT = 5.08e-6;
    /** Thinner films touch: about the roughness of both faces together [invented]. */
    private static final double LEAST_FILM = 0.5e-6;

    /** Warming of a film from which its walls would carry much of the heat, which no model here shares out, K [invented]. */
    private static final double FILM_WARMING = 200;

    private static final double THINNEST = 0.2e-6;
    /** Widest film looked for, and where faces stand that were blown open or hang, m [invented]. */
    private static final double THICKEST = 100e-6;

    private final boolean grooved;

    FaceType(boolean grooved) {
        this.grooved = grooved;
    }

    @Override
    public String key() {
        return grooved ? "hydrodynamic face" : "face";
    }

    @Override
    public String description() {
        return grooved
                ? "A face seal lifted by spiral grooves; gap from the balance of forces."
                : "A face seal: fixed gap, or gap from the balance of forces; gas, liquid or flashing film.";
    }

    @Override
    public List<PassageField> fields() {
        List<PassageField> fields = new ArrayList<>(List.of(
                PassageField.positive("inner radius", Dimension.LENGTH, "Inner edge of the film."),
                PassageField.positive("outer radius", Dimension.LENGTH, "Outer edge of the film."),
                PassageField.choice(
                        "from at",
                        "outer",
                        List.of("outer", "inner"),
                        "Edge that the cavity named in 'from' lies at.")));
        if (grooved) {
            fields.add(PassageField.positive(
                    "groove radius", Dimension.LENGTH, "Inner end of the grooves, which start at the outer edge."));
            fields.add(PassageField.positive("groove depth", Dimension.LENGTH, "Depth of the grooves."));
            fields.add(PassageField.optional(
                    "groove angle", Dimension.ANGLE, "15 deg", 0.05, 1.5, "Angle of the spiral to the circumference."));
            fields.add(PassageField.positive("balance radius", Dimension.LENGTH, "Radius of the secondary seal."));
            fields.add(PassageField.optional(
                    "spring force", Dimension.FORCE, "0 N", 0, 1e6, "Closing force of the springs."));
        } else {
            fields.add(Fields.maybe(
                    "gap",
                    Dimension.LENGTH,
                    "Film thickness, at the inner edge when coned; left out: from the balance of forces."));
            fields.add(PassageField.optional(
                    "coning",
                    Dimension.LENGTH,
                    "0 um",
                    -1e-3,
                    1e-3,
                    "Film thickness at the outer edge less that at the inner edge."));
            fields.add(Fields.maybe(
                    "balance radius", Dimension.LENGTH, "Radius of the secondary seal; with it the gap is found."));
            fields.add(PassageField.optional(
                    "spring force", Dimension.FORCE, "0 N", 0, 1e6, "Closing force of the springs."));
            fields.add(Fields.maybe(
                    "film stiffness",
                    Dimension.STIFFNESS,
                    "Opening force gained by a metre less gap; moves the gap from the stated one."));
        }
        fields.add(Fields.ROUGHNESS);
        fields.add(Fields.INLET_LOSS);
        fields.add(
                PassageField.choice(
                        "looks",
                        "unstated",
                        List.of("unstated", "forward", "aft"),
                        "Which way along the shaft the turning face looks; with it the film's force counts in the axial thrust."));
        fields.add(
                PassageField.optional(
                        "film heat share",
                        Dimension.NUMBER,
                        "1",
                        0,
                        1,
                        "Share of the film's heat that stays in what leaks; the rest goes through the faces to parts outside the case."));
        return List.copyOf(fields);
    }

    @Override
    public String page() {
        return grooved ? "hydrodynamic-face" : "face";
    }

    @Override
    public SealKind kind() {
        return SealKind.CLOSE;
    }

    @Override
    public boolean balances(PassageSpec spec) {
        return !Double.isNaN(spec.number("balance radius", Double.NaN))
                && Double.isNaN(spec.number("film stiffness", Double.NaN));
    }

    /** Faces that hang apart: no force moves them; as wide as the balance looks, or the factor times the gap that a stiffness is stated for. */
    @Override
    public PassageSpec failedOpen(PassageSpec spec, double factor) {
        if (Double.isNaN(spec.number("balance radius", Double.NaN))) {
            return null;
        }
        Map<String, Object> fields = new LinkedHashMap<>(spec.fields());
        double gap = balances(spec) ? THICKEST : factor * spec.number("gap", Double.NaN);
        fields.put("gap", gap);
        fields.remove("balance radius");
        fields.remove("film stiffness");
        double calibration = Math.max(1, spec.calibrationFactor());
        return CaseValue.copy(spec, gap, spec.clearanceGrowth(), calibration, spec.closed(), fields);
    }

    @Override
    public DrivingHead drive(PassageSpec spec, double gap, double speed, FluidState from, FluidState to) {
        return DrivingHead.face(spec, speed, from, to, grooved);
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        return new FaceSeal(spec, conditions, grooved);
    }

    /** Factor g1 of a spiral groove's pressure: H land over groove gap, equal widths. */
    static double muijderman(double h, double angle) {
        double cot = 1 / Math.tan(angle);
        double h3 = h * h * h;
        return h * h * cot * (1 - h) * (1 - h3) / ((1 + h3) * (1 + h3) + 4 * h3 * cot * cot);
    }

    private static final class FaceSeal extends DirectedPassage {
        private final double inner;
        private final double outer;
        private final double stated;
        private final double coning;
        private final double balance;
        private final double spring;
        private final double stiffness;
        private final double grooveRadius;
        private final double grooveDepth;
        private final double grooveAngle;
        private final boolean grooved;
        private final double speed;
        private final double width;
        private final double perimeter;
        private final double roughness;
        private final double inletLoss;
        private final double heatShare;
        private final boolean fromOuter;
        private final double contact;
        private final Throttle.Flashing flashing;
        /** Of a face whose gap is stated; null where the gap is found. */
        private final Gap fixed;

        private final FrictionSlot fixedSlot;

        FaceSeal(PassageSpec spec, Conditions conditions, boolean grooved) {
            super(spec);
            this.grooved = grooved;
            inner = Fields.positive(spec, "inner radius", "m");
            outer = Fields.positive(spec, "outer radius", "m");
            if (!(outer > inner)) {
                throw new IllegalArgumentException(
                        SimpleDucts.text("face: outer radius %g m is not above the inner radius %g m", outer, inner));
            }
            double running = conditions.runningClearance();
            stated = Double.isNaN(running) ? spec.number("gap", Double.NaN) : running;
            coning = spec.number("coning", 0);
            balance = spec.number("balance radius", Double.NaN);
            spring = spec.number("spring force", 0);
            stiffness = spec.number("film stiffness", Double.NaN);
            if (Double.isNaN(balance) && !(stated > 0)) {
                throw new IllegalArgumentException("face: needs a gap, or a balance radius to find it from");
            }
            if (!Double.isNaN(stiffness) && !(stated > 0)) {
                throw new IllegalArgumentException("face: a film stiffness needs the gap it is stated for");
            }
            grooveRadius = spec.number("groove radius", outer);
            grooveDepth = spec.number("groove depth", 0);
            grooveAngle = spec.number("groove angle", Math.toRadians(15));
            if (grooved && !(grooveRadius > inner && grooveRadius < outer)) {
                throw new IllegalArgumentException(SimpleDucts.text(
                        "hydrodynamic face: groove radius %g m is not between %g and %g m",
                        grooveRadius, inner, outer));
            }
            speed = conditions.rotorSpeed();
            // Log-mean perimeter of the film, or of the dam of a grooved one.
            double end = grooved ? grooveRadius : outer;
            width = end - inner;
            perimeter = 2 * Math.PI * width / Math.log(end / inner);
            fromOuter = "outer".equals(spec.word("from at", "outer"));
            roughness = spec.number("roughness", 0.8e-6);
            inletLoss = spec.number("inlet loss", 0.3);
            heatShare = spec.number("film heat share", 1);
            double bare = speed == 0 ? STILL_CONTACT : TURNING_CONTACT;
            double band = conditions.bound() == Conditions.Bound.LOW
                    ? 0.5
                    : conditions.bound() == Conditions.Bound.HIGH ? 2 : 1;
            contact = bare * band;
            flashing = Fields.slot(conditions.bound());
            fixed = Double.isNaN(balance) ? new Gap(stated, How.FIXED, 0) : null;
            fixedSlot = fixed == null ? null : film(equivalent(stated));
        }

        /** How the gap was found. */
        private enum How {
            FIXED,
            FILM,
            CONTACT,
            OPEN
        }

        /**
         * @param surplus closing force left over when touching, N
         * @param tipping unstable gap below the stable one, m: faces closer than that go shut; NaN when there is none
         * @param second wider stable gap, m; NaN when there is none
         */
        private record Gap(double atInner, How how, double surplus, double tipping, double second) {
            Gap(double atInner, How how, double surplus) {
                this(atInner, how, surplus, Double.NaN, Double.NaN);
            }
        }

        private Gap gap(FluidState up, double down, boolean forward) {
            if (fixed != null) {
                return fixed;
            }
            boolean outerIsHigh = forward == fromOuter;
            double po = outerIsHigh ? up.pressure() : down;
            double pi = outerIsHigh ? down : up.pressure();
            boolean gas = up.phase() != Phase.TWO_PHASE && !Throttle.dense(up);
            double closing = closing(po, pi);
            if (!Double.isNaN(stiffness)) {
                double h = stated + (opening(stated, po, pi, gas, up) - closing) / stiffness;
                return h > contact
                        ? new Gap(h, How.FILM, 0)
                        : new Gap(contact, How.CONTACT, closing - opening(contact, po, pi, gas, up));
            }
            return balanced(po, pi, closing, gas, up, Math.abs(speed));
        }

        /** Every gap between the thinnest and the thickest at which the forces meet; the narrowest stable one holds. */
        private Gap balanced(double po, double pi, double closing, boolean gas, FluidState up, double turning) {
            // The closest edge of a coned film decides what is thin.
            double floor = Math.max(0, -coning);
            double previous = floor + THINNEST;
            double before = opening(previous, po, pi, gas, up, turning) - closing;
            double stable = Double.NaN;
            double second = Double.NaN;
            double tipping = Double.NaN;
            int steps = 48;
            for (int i = 1; i <= steps; i++) {
                double h = floor + THINNEST * Math.pow(THICKEST / THINNEST, (double) i / steps);
                double now = opening(h, po, pi, gas, up, turning) - closing;
                if ((before > 0) != (now > 0)) {
                    double root = Roots.find(
                            x -> opening(x, po, pi, gas, up, turning) - closing, previous, before, h, now, 1e-12);
                    // Stable where the film pushes less as it opens.
                    if (before > 0 && Double.isNaN(stable)) {
                        stable = root;
                    } else if (before > 0 && Double.isNaN(second)) {
                        second = root;
                    } else if (before <= 0 && Double.isNaN(stable)) {
                        tipping = root;
                    }
                }
                previous = h;
                before = now;
            }
            if (stable - floor > LEAST_FILM) {
                return new Gap(stable, How.FILM, 0, tipping, second);
            }
            if (Double.isNaN(stable) && before > 0) {
                return new Gap(THICKEST, How.OPEN, 0, tipping, Double.NaN);
            }
            return new Gap(contact, How.CONTACT, closing - opening(contact, po, pi, gas, up, turning));
        }

        @Override
        public Film film(FluidState from, FluidState to) {
            double driven = drive(from, to);
            boolean forward = driven >= 0;
            FluidState up = forward ? from : to;
            double down = up.pressure() - Math.abs(driven);
            Gap found = gap(up, down, forward);
            boolean outerIsHigh = forward == fromOuter;
            boolean gas = up.phase() != Phase.TWO_PHASE && !Throttle.dense(up);
            double force = opening(
                            found.atInner,
                            outerIsHigh ? up.pressure() : down,
                            outerIsHigh ? down : up.pressure(),
                            gas,
                            up)
                    + found.surplus;
            if (fixed != null || !Double.isNaN(stiffness)) {
                return new Film(found.atInner, force, Double.NaN, Double.NaN);
            }
            boolean holds = found.how == How.FILM;
            double difference = up.pressure() - down;
            double byPressure = least(holds, share -> holds(up, down + share * difference, down, outerIsHigh, gas, 1));
            double bySpeed = grooved
                    ? least(holds, share -> holds(up, up.pressure(), down, outerIsHigh, gas, share))
                    : holds ? 0 : Double.NaN;
            return new Film(found.atInner, force, bySpeed * Math.abs(speed), byPressure * difference);
        }

        /** Smallest share of the present value from which on something holds, to a thousandth; NaN where it does not hold at present. */
        private static double least(boolean now, DoublePredicate holds) {
            if (!now) {
                return Double.NaN;
            }
            int steps = 50;
            int last = steps;
            while (last > 0 && holds.test((last - 1) / (double) steps)) {
                last--;
            }
            double high = last / (double) steps;
            double low = high - 1.0 / steps;
            for (int i = 0; last > 0 && i < 5; i++) {
                double middle = 0.5 * (low + high);
                if (holds.test(middle)) {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            return high;
        }

        private boolean holds(
                FluidState up, double high, double low, boolean outerIsHigh, boolean gas, double speedShare) {
            double po = outerIsHigh ? high : low;
            double pi = outerIsHigh ? low : high;
            return balanced(po, pi, closing(po, pi), gas, up, speedShare * Math.abs(speed)).how == How.FILM;
        }

        private double closing(double po, double pi) {
            return Math.PI * (po * (outer * outer - balance * balance) + pi * (balance * balance - inner * inner))
                    + spring;
        }

        private double opening(double h, double po, double pi, boolean gas, FluidState up) {
            return opening(h, po, pi, gas, up, Math.abs(speed));
        }

        /** Opening force at a gap and a speed, N. */
        private double opening(double h, double po, double pi, boolean gas, FluidState up, double turning) {
            double area = Math.PI * (outer * outer - inner * inner);
            if (grooved) {
                double pg = grooveEnd(h, po, up, gas, turning);
                double dam = Math.PI * (grooveRadius * grooveRadius - inner * inner);
                double high = Math.max(pg, pi);
                double low = Math.min(pg, pi);
                double mean = gas && low > 0 ? low + profile(1, high, low, true) * (high - low) : 0.5 * (high + low);
                return 0.5 * (po + pg) * (area - dam) + mean * dam;
            }
            double high = Math.max(po, pi);
            double low = Math.min(po, pi);
            double atOuter = Math.max(h + coning, THINNEST);
            double ratio = po >= pi ? atOuter / h : h / atOuter;
            return area * (low + profile(ratio, high, low, gas) * (high - low));
        }

        private static double profile(double ratio, double high, double low, boolean gas) {
            if (!gas || high < 1.0001 * low) {
                return FilmLaws.conedLiquid(ratio, 1);
            }
            return FilmLaws.conedGasQuick(ratio, high / Math.max(low, 1e-6 * high));
        }

        /** Pressure at the inner end of the grooves. */
        private double grooveEnd(double h, double po, FluidState up, boolean gas) {
            return grooveEnd(h, po, up, gas, Math.abs(speed));
        }

        private double grooveEnd(double h, double po, FluidState up, boolean gas, double turning) {
            double viscosity = up.fluid().viscosity(up);
            double ratio = h / (h + grooveDepth);
            double rise = 3
                    * viscosity
                    * turning
                    * muijderman(ratio, grooveAngle)
                    * (outer * outer - grooveRadius * grooveRadius)
                    / (h * h);
            if (!gas) {
                return po + rise;
            }
            double most = po * (1 / ratio - 1);
            return most > 0 ? po + rise / (1 + rise / most) : po;
        }

        /**
         * What the grooves' pressure makes of the dam's inward flow: {@code (pg/po)^2} for a gas, pg/po for a liquid, exact where the pressure
         * inside is far below both. Outwards, against the grooves, the flow is left as it is, which is too high.
         */
        private double pumped(double h, FluidState up, boolean forward, boolean gas) {
            if (!grooved || forward != fromOuter) {
                return 1;
            }
            double ratio = grooveEnd(h, up.pressure(), up, gas) / up.pressure();
            return gas ? ratio * ratio : ratio;
        }

        private FrictionSlot slot(double h) {
            return fixedSlot != null ? fixedSlot : film(h);
        }

        private FrictionSlot film(double h) {
            double mean = 0.5 * (inner + outer);
            return new FrictionSlot(
                    2 * h,
                    width,
                    Friction.SLOT,
                    Math.min(roughness, 0.1 * h),
                    inletLoss,
                    0,
                    Math.abs(speed) * mean,
                    1,
                    1);
        }

        private double equivalent(double atInner) {
            // An edge that the cone would close still leaks, but not more than the other.
            return FilmLaws.equivalentGap(atInner, Math.max(atInner + coning, Math.min(atInner, Fields.CLOSED_GAP)));
        }

        @Override
        PassageFlow oneWay(FluidState up, double down, boolean forward) {
            Notices notices = new Notices();
            Gap found = gap(up, down, forward);
            double h = equivalent(found.atInner);
            boolean gas = up.phase() != Phase.TWO_PHASE && !Throttle.dense(up);
            double viscosity = up.fluid().viscosity(up);
            double slip =
                    gas ? FilmLaws.slipFactor(FilmLaws.knudsen(up, 0.5 * (up.pressure() + down), viscosity, h)) : 1;
            FilmLaws.slip(notices, up, down, viscosity, h);
            FrictionSlot.Solver r = slot(h).flow(up, down, flashing, slip);
            notices.extrapolated(r.extrapolated, up);
            double mass = r.flux * perimeter * h;
            if (grooved) {
                mass *= pumped(found.atInner, up, forward, gas);
                double po = forward == fromOuter ? up.pressure() : down;
                notices.notEstablished(
                        grooveEnd(found.atInner, po, up, gas) - po > up.pressure() - down,
                        "hydrodynamic face",
                        "the grooves add more pressure than there is between the ends: what they pump is not covered");
                notices.range("hydrodynamic face", "surface speed", surfaceSpeed(), 0, 152);
                notices.range("hydrodynamic face", "pressure", up.pressure(), 0, 3.45e6);
            }
            double faceArea = Math.PI * (outer * outer - inner * inner);
            switch (found.how) {
                case FILM:
                    String model = grooved ? "hydrodynamic face" : "face balance";
                    notices.estimate(model, "stable gap, m", found.atInner);
                    if (!Double.isNaN(found.tipping)) {
                        // The faces do not lift from rest by themselves: they go shut from any closer gap.
                        notices.estimate(model, "unstable gap, m: closer faces go shut", found.tipping);
                    }
                    if (!Double.isNaN(found.second)) {
                        notices.estimate(model, "second stable gap, m", found.second);
                    }
                    break;
                case CONTACT:
                    notices.estimate("face in contact", "effective gap, m", found.atInner);
                    notices.estimate(
                            "face in contact",
                            "PV, Pa m/s",
                            found.surplus / faceArea * Math.abs(speed) * 0.5 * (inner + outer));
                    notices.estimate("face in contact", "net closing force, N", found.surplus);
                    break;
                case OPEN:
                    notices.notEstablished(true, "face balance", "no stable film: the faces are blown open");
                    break;
                default:
                    break;
            }
            double heat = heatShare * FilmLaws.faceDrag(r.meanDensity, r.meanViscosity, speed, inner, outer, h);
            notices.notEstablished(
                    heat > FILM_WARMING * up.cp() * mass && speed != 0 && mass > 0,
                    "face film heat",
                    "the leak is too small to carry the film's heat: it would warm by more than 200 K. The faces carry much of it; "
                            + "state the film heat share");
            return answer(up, forward, mass, perimeter * h, r.choked, r.exit, r.reynolds, heat, NO_STAGES, notices);
        }

        /** The turning face drives outwards: 3/20 w^2 (ro^2 - ri^2) of head against inward flow. */
        @Override
        double head() {
            double head = FilmLaws.centrifugalHead(speed, inner, outer);
            return fromOuter ? head : -head;
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            double atInner = gap(up, up.pressure(), forward).atInner;
            double h = equivalent(atInner);
            boolean gas = up.phase() != Phase.TWO_PHASE && !Throttle.dense(up);
            double slip = gas
                    ? FilmLaws.slipFactor(
                            FilmLaws.knudsen(up, up.pressure(), up.fluid().viscosity(up), h))
                    : 1;
            return pumped(atInner, up, forward, gas) * slip * perimeter * h * slot(h).slopeAtRest(up);
        }

        @Override
        double openArea() {
            double h = stated > 0 ? stated : contact;
            return perimeter * h;
        }

        @Override
        public double diffusionLength() {
            return width;
        }

        @Override
        public double surfaceSpeed() {
            return Math.abs(speed) * outer;
        }

        @Override
        public double gap() {
            return stated > 0 ? stated : contact;
        }
    }
}
