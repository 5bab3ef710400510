package purgewright.figure;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Shape;
import java.awt.geom.Area;
import java.awt.geom.Dimension2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult;

/** Draws the barrier section with the skyline above it on the same axis. */
public final class BarrierSection {
    static final double SKYLINE = 176;

    final Picture picture;
    final Theme theme;
    final Readout readout;
    final SectionLayout layout;
    final Figure.Builder b;
    private final SealShapes shapes;
    final Map<String, Verdict> marks = new HashMap<>();
    final Font name = Lettering.font(Font.BOLD, 12);
    final Font value = Lettering.font(Font.PLAIN, 11.5);
    final Font small = Lettering.font(Font.PLAIN, 10.5);
    final Font smallBold = Lettering.font(Font.BOLD, 10.5);
    final Font slanted = Lettering.font(Font.ITALIC, 10.5);

    private BarrierSection(Picture picture) {
        this.picture = picture;
        this.theme = picture.theme();
        this.readout = picture.readout();
        this.layout = new SectionLayout(picture.model(), SKYLINE, picture.width());
        this.b = new Figure.Builder(theme);
        this.shapes = new SealShapes(b);
        for (Finding finding : picture.findings()) {
            marks.merge(finding.where(), finding.verdict(), (x, y) -> x.compareTo(y) <= 0 ? x : y);
        }
    }

    /** The drawing: section below, skyline above. */
    public static Figure draw(Picture picture) {
        return new BarrierSection(picture).draw();
    }

    /** Place of a cavity in the case. */
    public static String cavityPointer(String cavity) {
        return "/cavities/" + cavity;
    }

    /** Place of a passage in the case. */
    public static String passagePointer(String passage) {
        return "/passages/" + passage;
    }

    /** The same with radii and seal lengths true to one scale, as far as the case states them. */
    public static Figure toScale(Picture picture) {
        return laid(picture, true).draw();
    }

    /** A drawing laid out and not yet drawn: its size is known before, and the layout, half of the work, is done once. */
    public static final class Laid {
        private final BarrierSection section;
        private final ScaleSection scaled;

        private Laid(BarrierSection section, boolean toScale) {
            this.section = section;
            boolean schematic = !toScale || section.layout.gaps.isEmpty();
            ScaleSection toTry = schematic ? null : new ScaleSection(section);
            this.scaled = toTry == null || !toTry.drawable() ? null : toTry;
        }

        /** Width and height that the drawing takes. */
        public Dimension2D size() {
            return new Dimension((int) Math.ceil(section.layout.width), (int)
                    Math.ceil(scaled == null ? section.layout.height + section.legendHeight() : scaled.height()));
        }

        /** The drawing; asked for once. */
        public Figure draw() {
            return scaled == null || section.picture.model().cavities().isEmpty() ? section.draw() : scaled.draw();
        }
    }

    /** The layout of a picture, before it is drawn. */
    public static Laid laid(Picture picture, boolean toScale) {
        return new Laid(new BarrierSection(picture), toScale);
    }

    private Figure draw() {
        double height = layout.height + legendHeight();
        b.fill(new Rectangle2D.Double(0, 0, layout.width, height), theme.paper());
        if (picture.model().cavities().isEmpty()) {
            b.text("empty", FigureText.of("section.empty"), 24, 60, value, theme.quiet());
            return b.build(layout.width, height, FigureText.of("section.caption"));
        }
        new Skyline(picture, layout, b, SKYLINE).draw();
        casing();
        layout.chambers.values().forEach(this::chamberGround);
        rotor();
        for (SectionLayout.Gap gap : layout.gaps) {
            seal(gap);
        }
        layout.ducts.forEach(this::duct);
        layout.chips.forEach(this::chip);
        layout.chambers.values().forEach(this::chamberText);
        axis();
        legend(layout.height + 4, FigureText.of("section.scale"));
        return b.build(layout.width, height, FigureText.of("section.caption"));
    }

    // ---- state behind the picture

    SolveResult.CavityState state(String cavity) {
        return picture.solved() == null ? null : picture.solved().cavities().get(cavity);
    }

    SolveResult.PassageState flow(String passage) {
        return picture.solved() == null ? null : picture.solved().passages().get(passage);
    }

    /** Shares of the streams in a cavity, greatest first; before a solution, what the case says is in it. */
    List<Map.Entry<String, Double>> shares(Cavity cavity) {
        SolveResult.CavityState state = state(cavity.name());
        if (state != null) {
            return state.streamFractions().entrySet().stream()
                    .filter(e -> e.getValue() > 1e-6)
                    .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                    .toList();
        }
        if (cavity.stream() != null) {
            return List.of(Map.entry(cavity.stream(), 1.0));
        }
        return cavity.role() == Role.VENT && cavity.fixed() ? List.of(Map.entry(Case.AIR, 1.0)) : List.of();
    }

    FluidLook look(String stream) {
        return FluidLook.of(picture.model(), stream);
    }

    /** Look of what flows through a passage: its greatest stream. */
    FluidLook look(SolveResult.PassageState state) {
        return state.streamFlows().entrySet().stream()
                .max(Comparator.comparingDouble(e -> Math.abs(e.getValue())))
                .map(e -> look(e.getKey()))
                .orElse(FluidLook.OTHER);
    }

    static double breadth(double massFlow) {
        double m = Math.abs(massFlow);
        return m < 1e-9 ? 0 : Math.max(3, Math.min(15, 3 + 2.4 * Math.log10(m / 1e-5)));
    }

    // ---- metal

    /** How far a seal's rotor surface stands out from its lane's own line, by its radius on a fixed logarithmic scale. */
    private double rise(SectionLayout.Gap gap) {
        double radius = gap.seal().radius();
        double mean = gap.lane().radius;
        if (!(radius > 0) || !(mean > 0)) {
            return 0;
        }
        double anchor = Math.pow(1.5, Math.rint(Math.log(mean) / Math.log(1.5)));
        return Math.max(-9, Math.min(9, 26 * Math.log10(radius / anchor)));
    }

    private SectionLayout.Gap gap(SectionLayout.Lane lane, SectionLayout.Chamber left, SectionLayout.Chamber right) {
        for (SectionLayout.Gap g : layout.gaps) {
            if (g.lane() == lane && (left == null || g.left() == left) && (right == null || g.right() == right)) {
                return g;
            }
        }
        return null;
    }

    private double riseLeft(SectionLayout.Lane lane, SectionLayout.Chamber c) {
        SectionLayout.Gap g = gap(lane, null, c);
        SectionLayout.Gap other = g == null ? gap(lane, c, null) : g;
        return other == null ? 0 : rise(other);
    }

    private double riseRight(SectionLayout.Lane lane, SectionLayout.Chamber c) {
        SectionLayout.Gap g = gap(lane, c, null);
        SectionLayout.Gap other = g == null ? gap(lane, null, c) : g;
        return other == null ? 0 : rise(other);
    }

    private double start(SectionLayout.Lane lane) {
        return layout.chambers.get(lane.all().get(0)).x;
    }

    private double end(SectionLayout.Lane lane) {
        List<String> all = lane.all();
        return layout.chambers.get(all.get(all.size() - 1)).right();
    }

    private void casing() {
        Area metal = new Area();
        for (SectionLayout.Lane lane : layout.lanes) {
            double y1 = lane.y(SectionLayout.LANE + 9);
            double y2 = lane.y(4);
            metal.add(new Area(new Rectangle2D.Double(
                    start(lane) - 10, Math.min(y1, y2), end(lane) - start(lane) + 20, Math.abs(y2 - y1))));
        }
        if (layout.disc) {
            SectionLayout.Lane low = low();
            SectionLayout.Lane up = layout.lanes.get(0);
            double x1 = layout.chambers.get(low.left).x - 10;
            double x2 = layout.chambers.get(low.right).right() + 10;
            metal.add(new Area(new Rectangle2D.Double(x1, up.surface - 10, x2 - x1, low.surface - up.surface + 20)));
        }
        b.fill(metal, theme.stator());
        b.line(metal, theme.ink(), 1.2);
        for (SectionLayout.Gap gap : layout.gaps) {
            double y1 = gap.lane().y(rise(gap));
            double y2 = gap.lane().y(rise(gap) + SectionLayout.CHANNEL);
            b.fill(
                    new Rectangle2D.Double(gap.x() - 1, Math.min(y1, y2), gap.width() + 2, SectionLayout.CHANNEL),
                    theme.paper());
        }
    }

    SectionLayout.Lane low() {
        return layout.lanes.stream().filter(l -> !l.up).findFirst().orElseThrow();
    }

    double web() {
        SectionLayout.Lane low = low();
        return (layout.chambers.get(low.left).right() + layout.chambers.get(low.right).x) / 2;
    }

    /** Outline of a chamber. */
    private Shape room(SectionLayout.Chamber c) {
        Area area = new Area();
        for (SectionLayout.Lane lane : c.lanes) {
            double outer = lane.y(SectionLayout.LANE);
            Path2D path = new Path2D.Double();
            path.moveTo(c.x, outer);
            path.lineTo(c.right(), outer);
            path.lineTo(c.right(), lane.y(riseRight(lane, c)));
            path.lineTo(c.centre(), lane.y(riseRight(lane, c)));
            path.lineTo(c.centre(), lane.y(riseLeft(lane, c)));
            path.lineTo(c.x, lane.y(riseLeft(lane, c)));
            path.closePath();
            area.add(new Area(path));
        }
        if (c.lanes.size() > 1) {
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            for (SectionLayout.Lane lane : c.lanes) {
                low = Math.min(low, lane.surface);
                high = Math.max(high, lane.surface);
            }
            area.add(new Area(new Rectangle2D.Double(c.x, low - 12, c.width, high - low + 24)));
        }
        if (layout.disc) {
            SectionLayout.Lane lower = low();
            SectionLayout.Lane upper = layout.lanes.get(0);
            double y1 = upper.surface + 18;
            double y2 = lower.surface - 18;
            if (c.cavity.name().equals(lower.left)) {
                area.add(new Area(new Rectangle2D.Double(c.right() - 1, y1, web() - 30 - c.right(), y2 - y1)));
            } else if (c.cavity.name().equals(lower.right)) {
                area.add(new Area(new Rectangle2D.Double(web() + 29, y1, c.x - web() - 28, y2 - y1)));
            }
        }
        return area;
    }

    private void chamberGround(SectionLayout.Chamber c) {
        Shape room = room(c);
        b.fill(room, theme.panel());
        Rectangle2D box = room.getBounds2D();
        double x = box.getMinX();
        List<Map.Entry<String, Double>> shares = shares(c.cavity);
        double sum = shares.stream().mapToDouble(Map.Entry::getValue).sum();
        for (Map.Entry<String, Double> share : shares) {
            double w = box.getWidth() * share.getValue() / sum;
            if (w < 0.5) {
                continue;
            }
            FluidLook look = look(share.getKey());
            Area part = new Area(room);
            part.intersect(new Area(new Rectangle2D.Double(x, box.getMinY(), w, box.getHeight())));
            b.fill(part, theme.wash(look));
            b.hatch(part, look, Theme.blend(theme.wash(look), theme.of(look), 0.75), 8, 1);
            x += w;
        }
        b.line(room, theme.ink(), 1.4);
        SolveResult.CavityState state = state(c.cavity.name());
        b.region(cavityPointer(c.cavity.name()), room, describe(c.cavity, state));
    }

    String describe(Cavity cavity, SolveResult.CavityState state) {
        if (state == null) {
            return FigureText.of(
                    "region.cavity.unsolved", cavity.name(), cavity.role().text());
        }
        String most = shares(cavity).stream()
                .limit(2)
                .map(e -> FigureText.of("section.percent", readout.share(e.getValue()), e.getKey()))
                .reduce((x, y) -> x + ", " + y)
                .orElse("");
        return FigureText.of(
                "region.cavity",
                cavity.name(),
                cavity.role().text(),
                readout.pressure(state.state().pressure()),
                readout.temperature(state.state().temperature()),
                most);
    }

    private void rotor() {
        Area metal = new Area();
        for (SectionLayout.Lane lane : layout.lanes) {
            boolean rim = layout.disc && (lane == layout.lanes.get(0) || !lane.up);
            double depth = rim ? -18 : -24;
            List<String> all = lane.all();
            Path2D path = new Path2D.Double();
            double first = rim ? layout.chambers.get(lane.left).right() - 4 : start(lane) - 16;
            double last = rim ? layout.chambers.get(lane.right).x + 4 : end(lane) + 16;
            if (rim && !lane.before.isEmpty()) {
                first = start(lane) - 6;
            }
            if (rim && !lane.after.isEmpty()) {
                last = end(lane) + 6;
            }
            path.moveTo(first, lane.y(depth));
            for (String each : all) {
                SectionLayout.Chamber c = layout.chambers.get(each);
                boolean tallEnd = rim && (each.equals(lane.left) || each.equals(lane.right));
                double from = Math.max(first, c.x);
                double to = Math.min(last, c.right());
                if (each.equals(all.get(0)) && !tallEnd) {
                    path.lineTo(first, lane.y(riseLeft(lane, c)));
                }
                if (!tallEnd) {
                    path.lineTo(c.centre(), lane.y(riseLeft(lane, c)));
                    path.lineTo(c.centre(), lane.y(riseRight(lane, c)));
                } else {
                    double r = each.equals(lane.left) ? riseRight(lane, c) : riseLeft(lane, c);
                    path.lineTo(from, lane.y(r));
                    path.lineTo(to, lane.y(r));
                }
                if (each.equals(all.get(all.size() - 1)) && !tallEnd) {
                    path.lineTo(last, lane.y(riseRight(lane, c)));
                }
            }
            path.lineTo(last, lane.y(depth));
            path.closePath();
            metal.add(new Area(path));
            if (!rim) {
                wheel(metal, lane, layout.chambers.get(all.get(0)), true);
                wheel(metal, lane, layout.chambers.get(all.get(all.size() - 1)), false);
            }
        }
        if (layout.disc) {
            SectionLayout.Lane upper = layout.lanes.get(0);
            metal.add(new Area(
                    new Rectangle2D.Double(web() - 30, upper.surface + 4, 60, low().surface - upper.surface - 8)));
        }
        b.fill(metal, theme.rotor());
        b.line(metal, theme.ink(), 1.4);
        if (layout.disc) {
            double y = (layout.lanes.get(0).surface + low().surface) / 2;
            b.centred("disc", FigureText.of("section.disc"), web(), y + 4, small, theme.ink());
        }
    }

    /** The back of an impeller or a turbine disc at an end of the shaft. */
    private void wheel(Area metal, SectionLayout.Lane lane, SectionLayout.Chamber c, boolean atLeft) {
        Role role = c.cavity.role();
        if (role != Role.OXIDIZER && role != Role.FUEL && role != Role.HOT_GAS) {
            return;
        }
        double d = atLeft ? 1 : -1;
        double x = atLeft ? c.x : c.right();
        double tall = SectionLayout.LANE - 16;
        Path2D path = new Path2D.Double();
        path.moveTo(x, lane.y(-10));
        path.lineTo(x, lane.y(tall));
        path.lineTo(x + d * 9, lane.y(tall));
        path.curveTo(x + d * 11, lane.y(tall * 0.4), x + d * 14, lane.y(16), x + d * 34, lane.y(0));
        path.lineTo(x + d * 34, lane.y(-10));
        path.closePath();
        metal.add(new Area(path));
    }

    private void axis() {
        if (layout.disc) {
            return;
        }
        for (SectionLayout.Lane lane : layout.lanes) {
            if (lane == layout.lanes.get(layout.lanes.size() - 1)) {
                double y = lane.y(-31);
                b.dashed(new Line2D.Double(start(lane) - 26, y, end(lane) + 26, y), theme.quiet(), 1, 14f, 4f, 3f, 4f);
                b.text("axis", FigureText.of("section.axis"), start(lane) - 26, y + 13, slanted, theme.quiet());
            }
        }
    }

    // ---- chambers and chips

    private void chamberText(SectionLayout.Chamber c) {
        SectionLayout.Lane lane = layout.home(c);
        boolean tall = c.lanes.size() > 1 && layout.disc;
        boolean wheelLeft = !tall && c.cavity.role() != Role.HOT_GAS && isEnd(lane, c, true);
        boolean wheelRight = !tall && isEnd(lane, c, false);
        Role role = c.cavity.role();
        boolean wheel = role == Role.OXIDIZER || role == Role.FUEL || role == Role.HOT_GAS;
        double left = c.x + 7 + (wheel && wheelLeft ? 12 : 0);
        double right = c.right() - 7 - (wheel && wheelRight ? 12 : 0);
        if (right - left > 150) {
            double middle = (left + right) / 2;
            left = middle - 75;
            right = middle + 75;
        }
        double plateHeight = 88;
        double y = tall
                ? (lane.surface + low().surface) / 2 - plateHeight / 2
                : Math.min(lane.y(SectionLayout.LANE - 7), lane.y(SectionLayout.LANE - 7 - plateHeight));
        plate(c.cavity, left, y, right - left, plateHeight);
    }

    private boolean isEnd(SectionLayout.Lane lane, SectionLayout.Chamber c, boolean first) {
        List<String> all = lane.all();
        return c.cavity.name().equals(all.get(first ? 0 : all.size() - 1));
    }

    private void plate(Cavity cavity, double x, double y, double w, double h) {
        Rectangle2D box = new Rectangle2D.Double(x, y, w, h);
        b.fill(box, theme.panel());
        b.line(box, theme.rule(), 0.8);
        String pointer = cavityPointer(cavity.name());
        Verdict mark = marks.get(pointer);
        double textWidth = w - 10;
        double at = y + 14;
        List<String> lines = Lettering.wrap(name, cavity.name(), textWidth - (mark == null ? 0 : 14), 2);
        for (String line : lines) {
            b.text(pointer, line, x + 5, at, name, theme.ink());
            at += 14;
        }
        if (mark != null) {
            VerdictMark.draw(b, mark, x + w - 15, y + 5, 10);
        }
        at = y + 44;
        SolveResult.CavityState state = state(cavity.name());
        if (state != null) {
            b.text(pointer, readout.pressure(state.state().pressure()), x + 5, at, value, theme.ink());
            b.right(pointer, readout.temperature(state.state().temperature()), x + w - 5, at, value, theme.ink());
        } else if (cavity.fixed()) {
            b.text(pointer, readout.pressure(cavity.pressure()), x + 5, at, value, theme.ink());
        }
        at += 14;
        SolveResult.CavityState before = picture.reference() == null
                ? null
                : picture.reference().cavities().get(cavity.name());
        if (state != null && before != null) {
            // Beside a frozen state the differences are what is asked for; the mixture can be had from the details.
            String p = change(before.state().pressure(), state.state().pressure());
            String t = change(before.state().temperature(), state.state().temperature());
            b.text(pointer, p, x + 5, at, small, theme.ink());
            b.right(pointer, t, x + w - 5, at, small, theme.ink());
            return;
        }
        int room = 2;
        for (Map.Entry<String, Double> share : shares(cavity)) {
            if (room-- == 0) {
                break;
            }
            String percent = share.getValue() > 0.9995 ? "" : readout.share(share.getValue());
            double taken = Lettering.width(small, percent) + 6;
            swatch(look(share.getKey()), x + 5, at - 8, 9, 9);
            b.text(
                    pointer,
                    Lettering.shorten(small, share.getKey(), textWidth - taken - 13),
                    x + 18,
                    at,
                    small,
                    theme.quiet());
            b.right(pointer, percent, x + w - 5, at, small, theme.quiet());
            at += 13;
        }
    }

    private void swatch(FluidLook look, double x, double y, double w, double h) {
        Rectangle2D box = new Rectangle2D.Double(x, y, w, h);
        b.fill(box, theme.wash(look));
        b.hatch(box, look, theme.of(look), 4, 1);
        b.line(box, theme.ink(), 0.7);
    }

    private void chip(SectionLayout.Chip chip) {
        Rectangle2D box = chip.box();
        Cavity cavity = chip.cavity();
        String pointer = cavityPointer(cavity.name());
        b.fill(box, theme.panel());
        List<Map.Entry<String, Double>> shares = shares(cavity);
        if (!chip.ghost()) {
            Rectangle2D strip = new Rectangle2D.Double(box.getX(), box.getY(), 8, box.getHeight());
            FluidLook look =
                    shares.isEmpty() ? FluidLook.AIR : look(shares.get(0).getKey());
            b.fill(strip, theme.wash(look));
            b.hatch(strip, look, theme.of(look), 5, 1.1);
            b.line(strip, theme.ink(), 0.8);
            b.line(box, theme.ink(), 1.1);
        } else {
            b.dashed(box, theme.quiet(), 1.1, 4f, 3f);
        }
        double x = box.getX() + (chip.ghost() ? 6 : 13);
        double w = box.getMaxX() - x - 4;
        Verdict mark = marks.get(pointer);
        b.text(
                pointer,
                Lettering.shorten(smallBold, cavity.name(), mark == null ? w : w - 14),
                x,
                box.getY() + (chip.ghost() ? 25 : 17),
                smallBold,
                chip.ghost() ? theme.quiet() : theme.ink());
        if (mark != null && !chip.ghost()) {
            VerdictMark.draw(b, mark, box.getMaxX() - 14, box.getY() + 5, 9);
        }
        SolveResult.CavityState state = state(cavity.name());
        String numbers = state != null
                ? readout.pressure(state.state().pressure()) + "  "
                        + readout.temperature(state.state().temperature())
                : cavity.fixed() ? readout.pressure(cavity.pressure()) : "";
        if (!chip.ghost()) {
            b.text(pointer, Lettering.shorten(small, numbers, w), x, box.getY() + 33, small, theme.quiet());
        }
        b.region(pointer, box, describe(cavity, state));
    }

    // ---- seals and pipes

    private void seal(SectionLayout.Gap gap) {
        PassageSpec seal = gap.seal();
        SectionLayout.Lane lane = gap.lane();
        double surface = lane.y(rise(gap));
        double centre = gap.x() + gap.width() / 2;
        SolveResult.PassageState state = flow(seal.name());
        if (state != null && breadth(state.flow().massFlow()) > 0) {
            boolean leftIsFrom = seal.from().equals(gap.left().cavity.name());
            boolean toRight = leftIsFrom == (state.flow().massFlow() > 0);
            arrow(gap, surface, toRight, breadth(state.flow().massFlow()), look(state));
        }
        SolveResult.PassageState before = picture.reference() == null
                ? null
                : picture.reference().passages().get(seal.name());
        if (before != null) {
            ghost(gap, surface, before);
        }
        shapes.seal(seal, centre, surface, lane.up, gap.width() / 2 - 6);
        double w = Math.min(gap.width() - 8, 128);
        double high = SectionLayout.LANE - 5;
        double plateHeight = 57;
        double y = lane.up ? lane.y(high) : lane.y(high - plateHeight);
        sealPlate(gap, state, centre - w / 2, y, w, plateHeight);
        double y1 = lane.y(-4);
        double y2 = lane.y(SectionLayout.LANE);
        b.region(
                passagePointer(seal.name()),
                new Rectangle2D.Double(gap.x() + 2, Math.min(y1, y2), gap.width() - 4, Math.abs(y1 - y2)),
                describe(seal, state));
    }

    String describe(PassageSpec passage, SolveResult.PassageState state) {
        if (state == null) {
            return FigureText.of(
                    "region.passage.unsolved", passage.name(), passage.type(), passage.from(), passage.to());
        }
        Verdict mark = marks.get(passagePointer(passage.name()));
        String to = state.flow().massFlow() >= 0 ? passage.to() : passage.from();
        return FigureText.of(
                "region.passage",
                passage.name(),
                passage.type(),
                passage.from(),
                passage.to(),
                readout.flow(state.flow().massFlow()),
                to,
                mark == null ? "" : FigureText.of("region.passage.verdict", mark.word()));
    }

    private void sealPlate(
            SectionLayout.Gap gap, SolveResult.PassageState state, double x, double y, double w, double h) {
        PassageSpec seal = gap.seal();
        String pointer = passagePointer(seal.name());
        Rectangle2D box = new Rectangle2D.Double(x, y, w, h);
        b.fill(box, theme.panel());
        b.line(box, theme.rule(), 0.8);
        Verdict mark = marks.get(pointer);
        double at = y + 14;
        for (String line : Lettering.wrap(name, seal.name(), w - (mark == null ? 8 : 22), 2)) {
            b.text(pointer, line, x + 4, at, name, theme.ink());
            at += 13;
        }
        if (mark != null) {
            VerdictMark.draw(b, mark, x + w - 14, y + 4, 10);
        }
        b.text(pointer, flowText(seal, state), x + 4, y + h - 18 + (state == null ? 12 : 0), value, theme.ink());
        if (state != null) {
            String second = seal.count() > 1 ? "× " + seal.count() : "";
            SolveResult.PassageState before = picture.reference() == null
                    ? null
                    : picture.reference().passages().get(seal.name());
            if (before != null) {
                second = change(before.flow().massFlow(), state.flow().massFlow());
            } else if (state.gap() != null && second.isEmpty()) {
                second = readout.length(state.gap().mean());
            }
            b.text(pointer, second, x + 4, y + h - 5, small, theme.quiet());
        }
    }

    static String change(double before, double now) {
        if (Math.abs(before) < 1e-12) {
            return "";
        }
        double share = now / before - 1;
        return Math.abs(share) < 5e-4
                ? "= 0 %"
                : (share > 0 ? "+" : "−") + Readout.number(Math.abs(share) * 100, 2) + " %";
    }

    String flowText(PassageSpec passage, SolveResult.PassageState state) {
        if (passage.closed()) {
            return FigureText.of("section.shut");
        }
        if (state == null) {
            return "";
        }
        return breadth(state.flow().massFlow()) == 0
                ? FigureText.of("section.noflow")
                : readout.flow(state.flow().massFlow());
    }

    /** A band through the channel with its head in the chamber downstream. */
    private void arrow(SectionLayout.Gap gap, double surface, boolean toRight, double breadth, FluidLook look) {
        hatched(arrowShape(gap, surface, toRight, breadth), look);
    }

    private static Path2D arrowShape(SectionLayout.Gap gap, double surface, boolean toRight, double breadth) {
        double out = gap.lane().up ? -1 : 1;
        double y = surface + out * SectionLayout.CHANNEL / 2;
        double x1 = gap.x() - 12;
        double x2 = gap.x() + gap.width() + 12;
        double head = 9;
        Path2D path = new Path2D.Double();
        double s = toRight ? 1 : -1;
        double tail = toRight ? x1 : x2;
        double tip = toRight ? x2 + 3 : x1 - 3;
        path.moveTo(tail, y - breadth / 2);
        path.lineTo(tip - s * head, y - breadth / 2);
        path.lineTo(tip - s * head, y - breadth / 2 - 4);
        path.lineTo(tip, y);
        path.lineTo(tip - s * head, y + breadth / 2 + 4);
        path.lineTo(tip - s * head, y + breadth / 2);
        path.lineTo(tail, y + breadth / 2);
        path.closePath();
        return path;
    }

    /** The same arrow as it was in the frozen state, in outline. */
    private void ghost(SectionLayout.Gap gap, double surface, SolveResult.PassageState before) {
        double breadth = breadth(before.flow().massFlow());
        if (breadth == 0) {
            return;
        }
        boolean leftIsFrom = gap.seal().from().equals(gap.left().cavity.name());
        boolean toRight = leftIsFrom == (before.flow().massFlow() > 0);
        b.dashed(arrowShape(gap, surface, toRight, breadth), theme.quiet(), 1.2, 5f, 4f);
    }

    void hatched(Shape shape, FluidLook look) {
        b.fill(shape, Theme.blend(theme.panel(), theme.of(look), 0.35));
        b.hatch(shape, look, theme.of(look), 4.5, 1.2);
        b.line(shape, theme.ink(), 0.9);
    }

    private void duct(SectionLayout.Duct duct) {
        PassageSpec passage = duct.passage();
        SolveResult.PassageState state = flow(passage.name());
        double m = state == null ? 0 : state.flow().massFlow();
        double breadth = Math.max(4, breadth(m));
        double jog = duct.up() ? duct.y1() - 9 : duct.y1() + 9;
        double d = duct.up() ? -1 : 1;
        Path2D way = new Path2D.Double();
        way.moveTo(duct.x1(), duct.y1() - d * 9);
        if (Math.abs(duct.x1() - duct.x2()) > 1) {
            way.lineTo(duct.x1(), jog);
            way.lineTo(duct.x2(), jog);
        }
        way.lineTo(duct.x2(), duct.y2());
        Shape pipe =
                new BasicStroke((float) breadth, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER).createStrokedShape(way);
        boolean flows = state != null && breadth(m) > 0;
        FluidLook look = flows ? look(state) : FluidLook.AIR;
        if (flows) {
            hatched(pipe, look);
            boolean outward = passage.from().equals(duct.inner()) == (m > 0);
            double tip = outward ? duct.y2() : duct.y1() - d * 7;
            double s = outward ? d : -d;
            Path2D head = new Path2D.Double();
            head.moveTo(outward ? duct.x2() : duct.x1(), tip);
            head.lineTo((outward ? duct.x2() : duct.x1()) - breadth / 2 - 4, tip - s * 9);
            head.lineTo((outward ? duct.x2() : duct.x1()) + breadth / 2 + 4, tip - s * 9);
            head.closePath();
            b.fill(head, theme.of(look));
            b.line(head, theme.ink(), 0.9);
        } else {
            b.fill(pipe, theme.panel());
            b.line(pipe, theme.ink(), 0.9);
        }
        double middle = (duct.y1() + duct.y2()) / 2;
        boolean positiveOutward = passage.from().equals(duct.inner());
        shapes.duct(passage, duct.x2(), middle, positiveOutward == duct.up(), breadth);
        String pointer = passagePointer(passage.name());
        double x = duct.x2() + 16;
        double w = SectionLayout.COLUMN - 26 - 18;
        List<String> lines = new ArrayList<>(Lettering.wrap(small, passage.name(), w, 2));
        double at = middle - (lines.size() == 1 ? 2 : 8);
        for (String line : lines) {
            b.text(pointer, line, x, at, small, theme.ink());
            at += 12;
        }
        b.text(pointer, flowText(passage, state), x, at, smallBold, theme.ink());
        Verdict mark = marks.get(pointer);
        if (mark != null) {
            VerdictMark.draw(b, mark, duct.x2() - 22, middle - 5, 10);
        }
        b.region(
                pointer,
                new Rectangle2D.Double(
                        duct.x2() - 24,
                        Math.min(duct.y1(), duct.y2()) + 4,
                        24 + 16 + w,
                        Math.abs(duct.y2() - duct.y1()) - 8),
                describe(passage, state));
    }

    // ---- legend

    double legendHeight() {
        return 22 + 20 * legendRows().size();
    }

    private Map<String, FluidLook> legendEntries() {
        Map<String, FluidLook> entries = new LinkedHashMap<>();
        for (StreamDefinition stream : picture.model().streams()) {
            entries.put(stream.name(), FluidLook.of(stream));
        }
        return entries;
    }

    private List<List<Map.Entry<String, FluidLook>>> legendRows() {
        List<List<Map.Entry<String, FluidLook>>> rows = new ArrayList<>();
        double x = 0;
        for (Map.Entry<String, FluidLook> entry : legendEntries().entrySet()) {
            double w = 44 + Lettering.width(small, entry.getKey());
            if (rows.isEmpty() || x + w > layout.width - 60) {
                rows.add(new ArrayList<>());
                x = 0;
            }
            rows.get(rows.size() - 1).add(entry);
            x += w;
        }
        return rows;
    }

    void legend(double top, String note) {
        double y = top + 12;
        for (List<Map.Entry<String, FluidLook>> row : legendRows()) {
            double x = SectionLayout.MARGIN - 20;
            for (Map.Entry<String, FluidLook> entry : row) {
                swatch(entry.getValue(), x, y - 10, 20, 12);
                b.text("legend", entry.getKey(), x + 26, y, small, theme.ink());
                x += 44 + Lettering.width(small, entry.getKey());
            }
            y += 20;
        }
        for (String line : Lettering.wrap(slanted, note, layout.width - 2 * SectionLayout.MARGIN + 40, 3)) {
            b.text("legend", line, SectionLayout.MARGIN - 20, y, slanted, theme.quiet());
            y += 14;
        }
    }

    /** Colour of text on a fluid's solid hue. */
    static Color textOn(Color ground) {
        double luminance = 0.2126 * ground.getRed() + 0.7152 * ground.getGreen() + 0.0722 * ground.getBlue();
        return luminance > 140 ? Color.BLACK : Color.WHITE;
    }
}
