package purgewright.figure;

import java.awt.Color;
import java.awt.Shape;
import java.awt.geom.Area;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult;

/**
 * The barrier section with radii and seal lengths true to one scale, running clearances drawn larger by a stated factor. What a case
 * does not state (lengths of chambers, heights of teeth and rings, thickness of a disc) is drawn by convention, and the caption says
 * so. Both scales come from a coarse series, so that an edited number moves its own part and nothing else.
 */
final class ScaleSection {
    private static final double[] SERIES = {1, 1.25, 1.6, 2, 2.5, 3.2, 4, 5, 6.3, 8, 10};
    private static final double TALL = 240;
    private static final double PLATE = 70;
    private static final double STATOR = 44;
    private static final double DEEP = 34;
    private static final double WIDEST_GAP = 9;
    /** Higher than any drawing of radii that belong to one machine. */
    private static final double HIGHEST = 20_000;

    private final BarrierSection s;
    private final SectionLayout layout;
    private final Figure.Builder b;
    private final Theme theme;
    /** Drawing units a metre. */
    private final double scale;
    /** Drawn clearance over the true one at this scale. */
    private final double widened;

    private final double largest;
    private final double smallest;
    private final double top;
    private final Map<SectionLayout.Lane, Double> aside = new HashMap<>();
    private final Set<String> lacking = new LinkedHashSet<>();

    ScaleSection(BarrierSection section) {
        this.s = section;
        this.layout = section.layout;
        this.b = section.b;
        this.theme = section.theme;
        double high = 0;
        double low = Double.POSITIVE_INFINITY;
        double perMetre = Double.POSITIVE_INFINITY;
        double gapMost = 0;
        for (SectionLayout.Gap gap : layout.gaps) {
            double outer = outer(gap.seal());
            double inner = inner(gap.seal());
            if (outer > 0) {
                high = Math.max(high, outer);
                low = Math.min(low, inner);
            } else {
                lacking.add(gap.seal().name());
            }
            double length = length(gap.seal());
            // Cavities in an order of the user's own may leave a seal no room between them: it does not set the scale
            // then.
            if (length > 0 && gap.width() > 16) {
                perMetre = Math.min(perMetre, (gap.width() - 16) / length);
            }
            gapMost = Math.max(gapMost, clearance(gap.seal()));
        }
        this.largest = high;
        this.smallest = high > 0 ? low : 0;
        if (largest > smallest) {
            perMetre = Math.min(perMetre, TALL / (largest - smallest));
        }
        // A slip of the keyboard (a length of 1e300 m, a clearance of nearly nothing) must not break the window's
        // layout.
        double drawn = below(perMetre / 1000) * 1000;
        this.scale = drawn > 0 && drawn < Double.POSITIVE_INFINITY ? drawn : 1000;
        double wide = gapMost > 0 ? below(WIDEST_GAP / (gapMost * scale)) : 1;
        this.widened = wide > 1 && wide < Double.POSITIVE_INFINITY ? wide : 1;
        // Lanes beside the first stand in bands of their own: their radii would cover it.
        double shift = 0;
        for (SectionLayout.Lane lane : layout.lanes) {
            if (lane != layout.lanes.get(0) && lane.up) {
                shift += PLATE + STATOR + DEEP + 24;
                aside.put(lane, -shift);
            }
        }
        this.top = BarrierSection.SKYLINE + 14 + shift + PLATE + STATOR + 8;
    }

    /** The greatest number of the series, times a power of ten, that is not above a value. */
    static double below(double value) {
        double power = Math.pow(10, Math.floor(Math.log10(value)));
        double found = power;
        for (double step : SERIES) {
            if (step * power <= value * (1 + 1e-9)) {
                found = step * power;
            }
        }
        return found;
    }

    private static double outer(PassageSpec seal) {
        return Math.max(seal.number("outer radius", 0), seal.radius() > 0 ? seal.radius() : 0);
    }

    private static double inner(PassageSpec seal) {
        double inner = seal.number("inner radius", Double.NaN);
        return Double.isNaN(inner) ? outer(seal) : inner;
    }

    /** Length along the axis, m; 0 where the case states none. */
    private static double length(PassageSpec seal) {
        if (seal.type().equals("labyrinth")) {
            return (Math.max(1, seal.number("teeth", 1)) - 1) * seal.number("pitch", 0) + seal.number("tip", 0);
        }
        return seal.number("length", 0);
    }

    /** Mean running clearance where it is solved, else as drawn, m. */
    private double clearance(PassageSpec seal) {
        SolveResult.PassageState state = s.flow(seal.name());
        if (state != null && state.gap() != null) {
            return state.gap().mean();
        }
        return seal.clearance() > 0 ? seal.clearance() : seal.number("gap", 0);
    }

    private double y(SectionLayout.Lane lane, double radius) {
        return top + (largest - radius) * scale + aside.getOrDefault(lane, 0.0);
    }

    /** Page height at a distance outward from the rotor: away from the disc in a lane below it. */
    private static double out(SectionLayout.Lane lane, double from, double distance) {
        return lane.up ? from - distance : from + distance;
    }

    private double radius(SectionLayout.Gap gap) {
        double own = outer(gap.seal());
        if (own > 0) {
            return own;
        }
        return gap.lane().radius > 0 ? gap.lane().radius : smallest;
    }

    private double surface(SectionLayout.Gap gap) {
        return y(gap.lane(), radius(gap));
    }

    private double axis() {
        double lowest = y(layout.lanes.get(0), smallest);
        return layout.disc ? lowest + STATOR + PLATE + 14 : lowest + 62;
    }

    /** False where the case's sizes leave nothing that could be drawn: hatching a page without end takes without end. */
    boolean drawable() {
        return height() < HIGHEST;
    }

    double height() {
        return axis() + 26 + s.legendHeight() + 30;
    }

    Figure draw() {
        double lowest = y(layout.lanes.get(0), smallest);
        boolean below = layout.disc;
        double axis = axis();
        double height = height();
        b.fill(new Rectangle2D.Double(0, 0, layout.width, height), theme.paper());
        new Skyline(s.picture, layout, b, BarrierSection.SKYLINE).draw();
        casing();
        layout.chambers.values().forEach(this::chamber);
        rotor(lowest);
        layout.gaps.forEach(this::seal);
        layout.chambers.values().forEach(this::plate);
        if (!below) {
            b.dashed(
                    new Line2D.Double(SectionLayout.MARGIN - 26, axis, layout.width - SectionLayout.MARGIN + 26, axis),
                    theme.quiet(),
                    1,
                    14f,
                    4f,
                    3f,
                    4f);
            b.text("axis", FigureText.of("section.axis.broken"), 20, axis + 14, s.slanted, theme.quiet());
        }
        bar(layout.width - SectionLayout.MARGIN, axis + (below ? 0 : 14));
        String note = FigureText.of("section.toscale", plain(scale / 1000), plain(widened));
        if (!lacking.isEmpty()) {
            note += " " + FigureText.of("section.toscale.lacking", String.join(", ", lacking));
        }
        if (!aside.isEmpty()) {
            note += " " + FigureText.of("section.toscale.aside");
        }
        s.legend(axis + 26, note);
        return b.build(layout.width, height, FigureText.of("section.toscale.caption"));
    }

    /** A number of the series without idle zeros. */
    private static String plain(double number) {
        return new BigDecimal(number)
                .round(new MathContext(3))
                .stripTrailingZeros()
                .toPlainString();
    }

    /** A bar of a round length. */
    private void bar(double right, double y) {
        double room = 120 / (scale / 1000);
        double power = Math.pow(10, Math.floor(Math.log10(room)));
        double mm = room >= 5 * power ? 5 * power : room >= 2 * power ? 2 * power : power;
        double length = mm * scale / 1000;
        b.segment(right - length, y, right, y, theme.ink(), 1.4);
        b.segment(right - length, y - 4, right - length, y + 4, theme.ink(), 1.4);
        b.segment(right, y - 4, right, y + 4, theme.ink(), 1.4);
        b.right("bar", s.readout.length(mm / 1000), right - length - 6, y + 4, s.small, theme.ink());
    }

    // ---- metal

    private SectionLayout.Gap gap(SectionLayout.Lane lane, SectionLayout.Chamber c, boolean right) {
        for (SectionLayout.Gap g : layout.gaps) {
            if (g.lane() == lane && (right ? g.left() : g.right()) == c) {
                return g;
            }
        }
        return null;
    }

    /** Rotor surface at a side of a chamber: that of the seal there, else of the one at its other side. */
    private double side(SectionLayout.Lane lane, SectionLayout.Chamber c, boolean right) {
        SectionLayout.Gap g = gap(lane, c, right);
        if (g == null) {
            g = gap(lane, c, !right);
        }
        return g == null ? y(lane, lane.radius > 0 ? lane.radius : smallest) : surface(g);
    }

    private boolean end(SectionLayout.Lane lane, SectionLayout.Chamber c) {
        return layout.disc
                && (c.cavity.name().equals(lane.left) || c.cavity.name().equals(lane.right));
    }

    private void casing() {
        for (SectionLayout.Lane lane : layout.lanes) {
            double extreme = lane.up ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
            double near = lane.up ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
            for (SectionLayout.Gap g : layout.gaps) {
                if (g.lane() == lane) {
                    extreme = lane.up ? Math.min(extreme, surface(g)) : Math.max(extreme, surface(g));
                    near = lane.up ? Math.max(near, surface(g)) : Math.min(near, surface(g));
                }
            }
            if (!Double.isFinite(extreme)) {
                continue;
            }
            List<String> all = lane.all();
            double x1 = layout.chambers.get(all.get(0)).x - 8;
            double x2 = layout.chambers.get(all.get(all.size() - 1)).right() + 8;
            double far = out(lane, extreme, STATOR);
            Rectangle2D metal = new Rectangle2D.Double(x1, Math.min(far, near), x2 - x1, Math.abs(far - near));
            b.fill(metal, theme.stator());
            b.line(metal, theme.ink(), 1.1);
            // Between stator and rotor of each seal there is a gap, not metal.
            for (SectionLayout.Gap g : layout.gaps) {
                if (g.lane() == lane) {
                    double c = Math.max(1, clearance(g.seal()) * scale * widened);
                    double y1 = out(lane, surface(g), c);
                    double y2 = near;
                    b.fill(
                            new Rectangle2D.Double(g.x() - 1, Math.min(y1, y2), g.width() + 2, Math.abs(y2 - y1)),
                            theme.paper());
                }
            }
        }
    }

    private Shape room(SectionLayout.Chamber c) {
        Area area = new Area();
        for (SectionLayout.Lane lane : c.lanes) {
            double left = side(lane, c, false);
            double right = side(lane, c, true);
            double outermost = out(lane, lane.up ? Math.min(left, right) : Math.max(left, right), DEEP);
            Path2D path = new Path2D.Double();
            path.moveTo(c.x, outermost);
            path.lineTo(c.right(), outermost);
            path.lineTo(c.right(), right);
            path.lineTo(c.centre(), right);
            path.lineTo(c.centre(), left);
            path.lineTo(c.x, left);
            path.closePath();
            area.add(new Area(path));
        }
        if (layout.disc && c.lanes.size() > 1) {
            SectionLayout.Lane upper = layout.lanes.get(0);
            SectionLayout.Lane lower = s.low();
            boolean atLeft = c.cavity.name().equals(lower.left);
            double y1 = side(upper, c, atLeft);
            double y2 = side(lower, c, atLeft);
            area.add(new Area(new Rectangle2D.Double(c.x, y1 - 2, c.width, y2 - y1 + 4)));
            double web = s.web();
            if (atLeft) {
                area.add(new Area(new Rectangle2D.Double(c.right() - 1, y1 + 12, web - 30 - c.right(), y2 - y1 - 24)));
            } else if (c.cavity.name().equals(lower.right)) {
                area.add(new Area(new Rectangle2D.Double(web + 29, y1 + 12, c.x - web - 28, y2 - y1 - 24)));
            }
        }
        return area;
    }

    private void chamber(SectionLayout.Chamber c) {
        Shape room = room(c);
        b.fill(room, theme.panel());
        Rectangle2D box = room.getBounds2D();
        double x = box.getMinX();
        List<Map.Entry<String, Double>> shares = s.shares(c.cavity);
        double sum = shares.stream().mapToDouble(Map.Entry::getValue).sum();
        for (Map.Entry<String, Double> share : shares) {
            double w = box.getWidth() * share.getValue() / sum;
            if (w < 0.5) {
                continue;
            }
            FluidLook look = s.look(share.getKey());
            Area part = new Area(room);
            part.intersect(new Area(new Rectangle2D.Double(x, box.getMinY(), w, box.getHeight())));
            b.fill(part, theme.wash(look));
            b.hatch(part, look, Theme.blend(theme.wash(look), theme.of(look), 0.75), 8, 1);
            x += w;
        }
        b.line(room, theme.ink(), 1.2);
        b.region(BarrierSection.cavityPointer(c.cavity.name()), room, s.describe(c.cavity, s.state(c.cavity.name())));
    }

    private void rotor(double lowest) {
        Area metal = new Area();
        for (SectionLayout.Lane lane : layout.lanes) {
            boolean rim = layout.disc && (lane == layout.lanes.get(0) || !lane.up);
            boolean apart = aside.containsKey(lane);
            List<String> all = lane.all();
            Path2D path = new Path2D.Double();
            boolean begun = false;
            double first = 0;
            double last = 0;
            double deepest = lane.up ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
            List<double[]> points = new ArrayList<>();
            for (String each : all) {
                SectionLayout.Chamber c = layout.chambers.get(each);
                boolean outside = rim && end(lane, c);
                double left = outside && each.equals(lane.left) ? c.right() - 4 : c.x;
                double right = outside && each.equals(lane.right) ? c.x + 4 : c.right();
                if (!begun) {
                    first = outside ? left : left - 14;
                    begun = true;
                }
                last = outside ? right : right + 14;
                points.add(new double[] {left, side(lane, c, false)});
                points.add(new double[] {(left + right) / 2, side(lane, c, false)});
                points.add(new double[] {(left + right) / 2, side(lane, c, true)});
                points.add(new double[] {right, side(lane, c, true)});
            }
            for (double[] p : points) {
                deepest = lane.up ? Math.max(deepest, p[1]) : Math.min(deepest, p[1]);
            }
            double depth = rim || apart ? out(lane, deepest, -14) : lowest + 40;
            path.moveTo(first, depth);
            path.lineTo(first, points.get(0)[1]);
            points.forEach(p -> path.lineTo(p[0], p[1]));
            path.lineTo(last, points.get(points.size() - 1)[1]);
            path.lineTo(last, depth);
            path.closePath();
            metal.add(new Area(path));
        }
        if (layout.disc) {
            double y1 = y(layout.lanes.get(0), layout.lanes.get(0).radius);
            double y2 = y(s.low(), s.low().radius);
            metal.add(new Area(new Rectangle2D.Double(s.web() - 30, y1 + 2, 60, y2 - y1 - 4)));
        }
        b.fill(metal, theme.rotor());
        b.line(metal, theme.ink(), 1.3);
        if (layout.disc) {
            double y = (y(layout.lanes.get(0), layout.lanes.get(0).radius) + y(s.low(), s.low().radius)) / 2;
            b.centred("disc", FigureText.of("section.disc"), s.web(), y + 4, s.small, theme.ink());
        } else {
            // The shaft is broken off above the axis.
            SectionLayout.Lane lane = layout.lanes.get(0);
            List<String> all = lane.all();
            double x1 = layout.chambers.get(all.get(0)).x - 16;
            double x2 = layout.chambers.get(all.get(all.size() - 1)).right() + 16;
            double y = lowest + 40;
            Path2D wave = new Path2D.Double();
            wave.moveTo(x1, y);
            for (double x = x1; x < x2; x += 32) {
                double w = Math.min(32, x2 - x);
                wave.curveTo(x + w / 3, y - 5, x + 2 * w / 3, y + 5, x + w, y);
            }
            b.line(wave, theme.paper(), 3);
            b.line(wave, theme.ink(), 1);
        }
    }

    // ---- seals

    private void seal(SectionLayout.Gap gap) {
        PassageSpec seal = gap.seal();
        SectionLayout.Lane lane = gap.lane();
        double surface = surface(gap);
        double centre = gap.x() + gap.width() / 2;
        double length = length(seal) * scale;
        double c = Math.max(1, clearance(seal) * scale * widened);
        switch (seal.type()) {
            case "labyrinth" -> labyrinth(seal, lane, centre, surface, c);
            case "face" -> face(seal, lane, centre, surface, c);
            default -> {
                // Rings, bushings and all else with a gap about the shaft: a body of the stated length.
                double half = length > 0 ? length / 2 : 18;
                Rectangle2D body = box(lane, centre - half, centre + half, surface, c, c + 26);
                b.fill(body, theme.panel());
                if (length > 0) {
                    b.line(body, theme.ink(), 1.2);
                } else {
                    b.dashed(body, theme.ink(), 1.1, 4f, 3f);
                }
                b.segment(body.getMinX(), body.getMinY(), body.getMaxX(), body.getMaxY(), theme.quiet(), 0.7);
                b.segment(body.getMinX(), body.getMaxY(), body.getMaxX(), body.getMinY(), theme.quiet(), 0.7);
            }
        }
        SolveResult.PassageState state = s.flow(seal.name());
        double plateY = lane.up ? out(lane, extreme(lane), STATOR) - PLATE - 4 : out(lane, extreme(lane), STATOR) + 4;
        double w = Math.min(gap.width() - 4, 124);
        plate(gap, state, centre - w / 2, plateY, w);
        double y1 = out(lane, surface, -14);
        double y2 = lane.up ? plateY : plateY + PLATE;
        b.region(
                BarrierSection.passagePointer(seal.name()),
                new Rectangle2D.Double(gap.x() + 2, Math.min(y1, y2), gap.width() - 4, Math.abs(y2 - y1)),
                s.describe(seal, state));
    }

    /** The rotor surface of a lane that lies furthest out. */
    private double extreme(SectionLayout.Lane lane) {
        double extreme = lane.up ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
        for (SectionLayout.Gap g : layout.gaps) {
            if (g.lane() == lane) {
                extreme = lane.up ? Math.min(extreme, surface(g)) : Math.max(extreme, surface(g));
            }
        }
        return extreme;
    }

    private Rectangle2D box(SectionLayout.Lane lane, double x1, double x2, double surface, double low, double high) {
        double a = out(lane, surface, low);
        double e = out(lane, surface, high);
        return new Rectangle2D.Double(x1, Math.min(a, e), x2 - x1, Math.abs(e - a));
    }

    private void labyrinth(PassageSpec seal, SectionLayout.Lane lane, double centre, double surface, double c) {
        int teeth = (int) Math.max(1, Math.min(200, Math.round(seal.number("teeth", 1))));
        double pitch = seal.number("pitch", 0) * scale;
        double tip = Math.max(0.6, seal.number("tip", 0) * scale);
        double tall = Math.max(3, Math.min(12, pitch * 0.9));
        String arrangement = seal.word("arrangement", "straight");
        double x0 = centre - (teeth - 1) * pitch / 2;
        Path2D metal = new Path2D.Double();
        Path2D still = new Path2D.Double();
        // The groove: rotor metal stands back between the teeth, whose tips are at the stated radius.
        Rectangle2D groove = box(lane, x0 - pitch / 2, x0 + (teeth - 0.5) * pitch, surface, -tall, 0);
        b.fill(groove, theme.paper());
        for (int i = 0; i < teeth; i++) {
            double x = x0 + i * pitch;
            boolean fromStator = arrangement.equals("interlocking") && i % 2 == 1;
            double foot = Math.min(pitch * 0.3, tip / 2 + 2.5);
            if (fromStator) {
                tooth(still, lane, surface, x, tip / 2, foot, -tall + c, c);
            } else {
                tooth(metal, lane, surface, x, tip / 2, foot, 0, -tall);
            }
        }
        b.segment(
                groove.getMinX(),
                out(lane, surface, -tall),
                groove.getMaxX(),
                out(lane, surface, -tall),
                theme.ink(),
                1);
        b.fill(metal, theme.rotor());
        b.line(metal, theme.ink(), 0.8);
        b.fill(still, theme.stator());
        b.line(still, theme.ink(), 0.8);
        if (seal.word("land", "smooth").equals("honeycomb")) {
            Path2D cells = new Path2D.Double();
            for (double x = groove.getMinX(); x <= groove.getMaxX(); x += 4) {
                cells.moveTo(x, out(lane, surface, c));
                cells.lineTo(x, out(lane, surface, c + 8));
            }
            b.line(cells, theme.ink(), 0.7);
        }
    }

    private static void tooth(
            Path2D path,
            SectionLayout.Lane lane,
            double surface,
            double x,
            double tip,
            double foot,
            double tipAt,
            double footAt) {
        path.moveTo(x - foot, out(lane, surface, footAt));
        path.lineTo(x - tip, out(lane, surface, tipAt));
        path.lineTo(x + tip, out(lane, surface, tipAt));
        path.lineTo(x + foot, out(lane, surface, footAt));
        path.closePath();
    }

    /** The film lies between the stated radii; the surface is at its outer edge. */
    private void face(PassageSpec seal, SectionLayout.Lane lane, double centre, double surface, double c) {
        double tall = Math.max(4, (outer(seal) - inner(seal)) * scale);
        Rectangle2D runner = box(lane, centre - 22 - c / 2, centre - c / 2, surface, -tall - 6, 4);
        Rectangle2D nose = box(lane, centre + c / 2, centre + 16 + c / 2, surface, -tall, 0);
        part(runner, theme.rotor());
        part(nose, theme.panel());
    }

    private void part(Shape shape, Color color) {
        b.fill(shape, color);
        b.line(shape, theme.ink(), 1);
    }

    // ---- words

    private void plate(SectionLayout.Gap gap, SolveResult.PassageState state, double x, double y, double w) {
        PassageSpec seal = gap.seal();
        String pointer = BarrierSection.passagePointer(seal.name());
        Verdict mark = s.marks.get(pointer);
        double at = y + 12;
        for (String line : Lettering.wrap(s.smallBold, seal.name(), w - (mark == null ? 6 : 20), 2)) {
            b.text(pointer, line, x + 3, at, s.smallBold, theme.ink());
            at += 12;
        }
        if (mark != null) {
            VerdictMark.draw(b, mark, x + w - 13, y + 3, 9);
        }
        List<String> lines = new ArrayList<>();
        if (radius(gap) > 0) {
            lines.add(FigureText.of("section.toscale.radius", s.readout.length(radius(gap))));
        }
        double length = length(seal);
        if (length > 0) {
            lines.add(FigureText.of("section.toscale.length", s.readout.length(length)));
        }
        double c = clearance(seal);
        if (c > 0) {
            lines.add(FigureText.of("section.toscale.gap", s.readout.length(c)));
        }
        at = y + PLATE - 13.0 * lines.size() + 6;
        for (String line : lines) {
            b.text(pointer, Lettering.shorten(s.small, line, w - 6), x + 3, at, s.small, theme.quiet());
            at += 13;
        }
    }

    private void plate(SectionLayout.Chamber c) {
        SectionLayout.Lane lane = layout.home(c);
        boolean tall = c.lanes.size() > 1 && layout.disc;
        double w = Math.min(c.width - 6, 136);
        double x = c.centre() - w / 2;
        double surface = extreme(lane);
        if (!Double.isFinite(surface)) {
            surface = y(lane, smallest);
        }
        double y = lane.up ? out(lane, surface, STATOR) - PLATE - 4 : out(lane, surface, STATOR) + 4;
        if (tall) {
            double middle = (y(layout.lanes.get(0), layout.lanes.get(0).radius) + y(s.low(), s.low().radius)) / 2;
            y = middle - 30;
            Rectangle2D box = new Rectangle2D.Double(x, y, w, 56);
            b.fill(box, theme.panel());
            b.line(box, theme.rule(), 0.8);
        }
        String pointer = BarrierSection.cavityPointer(c.cavity.name());
        Verdict mark = s.marks.get(pointer);
        double at = y + 13;
        for (String line : Lettering.wrap(s.name, c.cavity.name(), w - (mark == null ? 8 : 22), 2)) {
            b.text(pointer, line, x + 4, at, s.name, theme.ink());
            at += 13;
        }
        if (mark != null) {
            VerdictMark.draw(b, mark, x + w - 14, y + 4, 10);
        }
        SolveResult.CavityState state = s.state(c.cavity.name());
        String pressure = state != null
                ? s.readout.pressure(state.state().pressure())
                : c.cavity.fixed() ? s.readout.pressure(c.cavity.pressure()) : "";
        b.text(pointer, pressure, x + 4, y + 46, s.value, theme.ink());
        if (state != null) {
            b.right(
                    pointer,
                    s.readout.temperature(state.state().temperature()),
                    x + w - 4,
                    y + 46,
                    s.value,
                    theme.ink());
        }
    }
}
