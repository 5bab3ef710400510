package purgewright.figure;

import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.sealflow.network.SolveResult;

/**
 * The pressure (or temperature) of each chamber as a step over the chamber, each seal's drop between, and what the criteria ask
 * for as an edge hatched downwards. One line per lane; the second is dashed.
 */
final class Skyline {
    private final Picture picture;
    private final SectionLayout layout;
    private final Figure.Builder b;
    private final Theme theme;
    private final Readout readout;
    private final double top;
    private final double bottom;
    private final boolean temperature;
    private final boolean logarithmic;
    private final Font small = Lettering.font(Font.PLAIN, 10.5);
    private final Font bold = Lettering.font(Font.BOLD, 11);
    private double low;
    private double high;
    private final List<double[]> occupied = new ArrayList<>();
    private final Set<String> said = new HashSet<>();

    Skyline(Picture picture, SectionLayout layout, Figure.Builder b, double height) {
        this.picture = picture;
        this.layout = layout;
        this.b = b;
        this.theme = b.theme();
        this.readout = picture.readout();
        this.top = 40;
        this.bottom = height - 8;
        this.temperature = picture.layer() == Picture.Layer.TEMPERATURE;
        this.logarithmic = picture.layer() == Picture.Layer.PRESSURE_LOG;
    }

    private double number(SolveResult.CavityState state) {
        return temperature
                ? readout.temperatureNumber(state.state().temperature())
                : readout.pressureNumber(state.state().pressure());
    }

    private double y(double number) {
        double share = logarithmic
                ? (Math.log(Math.max(number, 1e-12)) - Math.log(low)) / (Math.log(high) - Math.log(low))
                : (number - low) / (high - low);
        return bottom - Math.max(-0.02, Math.min(1.02, share)) * (bottom - top);
    }

    void draw() {
        if (picture.layer() == Picture.Layer.CONCENTRATION) {
            concentration();
            return;
        }
        String title = temperature
                ? FigureText.of("skyline.temperature", readout.temperatureUnit())
                : FigureText.of("skyline.pressure", readout.pressureUnit());
        if (layout.disc) {
            title = title + "    " + FigureText.of("skyline.lanes");
        }
        b.text("skyline", title, 12, 20, bold, theme.ink());
        if (picture.solved() == null) {
            b.text("skyline", FigureText.of("skyline.nothing"), 12, 60, small, theme.quiet());
            return;
        }
        range();
        axis();
        Map<String, List<Required>> required = temperature ? Map.of() : required();
        if (!required.isEmpty()) {
            b.right("skyline", FigureText.of("skyline.legend"), layout.width - 24, 20, small, theme.quiet());
        } else if (picture.reference() != null) {
            b.right("skyline", FigureText.of("skyline.reference"), layout.width - 24, 20, small, theme.quiet());
        }
        for (SectionLayout.Lane lane : layout.lanes) {
            if (picture.reference() != null) {
                line(lane, picture.reference(), true);
            }
        }
        for (SectionLayout.Chamber c : layout.chambers.values()) {
            labels(c, required.getOrDefault(c.cavity.name(), List.of()));
        }
        redlines();
        for (int i = layout.lanes.size() - 1; i >= 0; i--) {
            line(layout.lanes.get(i), picture.solved(), false);
        }
    }

    /** A dash-dotted line over the chamber with arrowheads towards the side that trips. */
    private void redlines() {
        for (Picture.Redline each : picture.redlines()) {
            SectionLayout.Chamber c = layout.chambers.get(each.cavity());
            if (c == null || each.pressure() == temperature || !Double.isFinite(each.value())) {
                continue;
            }
            double number =
                    temperature ? readout.temperatureNumber(each.value()) : readout.pressureNumber(each.value());
            double y = y(number);
            b.dashed(new Line2D.Double(c.x, y, c.right(), y), theme.bad(), each.stated() ? 1.8 : 1.2, 8f, 3f, 2f, 3f);
            double d = each.lowest() ? 1 : -1;
            for (double x : new double[] {c.x + 6, c.right() - 6}) {
                Path2D head = new Path2D.Double();
                head.moveTo(x - 3.5, y + 1.5 * d);
                head.lineTo(x + 3.5, y + 1.5 * d);
                head.lineTo(x, y + 7 * d);
                head.closePath();
                b.fill(head, theme.bad());
            }
            String text = FigureText.of(each.lowest() ? "skyline.low" : "skyline.high", Readout.number(number, 3));
            double half = Lettering.width(small, text) / 2;
            for (double at : new double[] {y - 4, y + 13, y - 17}) {
                if (at > top - 8
                        && at < bottom + 4
                        && occupied.stream()
                                .noneMatch(o -> o[0] < c.centre() + half
                                        && o[1] > c.centre() - half
                                        && Math.abs(o[2] - at) < 12)) {
                    b.centred(
                            BarrierSection.cavityPointer(each.cavity()) + "#redline",
                            text,
                            c.centre(),
                            at,
                            small,
                            theme.ink());
                    occupied.add(new double[] {c.centre() - half - 3, c.centre() + half + 3, at});
                    break;
                }
            }
        }
    }

    // ---- shares of the streams

    private static final double TRACE = 1e-7;

    private static final float[][] DASHES = {{}, {9f, 4f}, {3f, 3f}, {12f, 3f, 3f, 3f}, {2f, 5f}, {16f, 5f}};

    /** One stepped line a stream, on a logarithmic axis down to a tenth of a millionth. */
    private void concentration() {
        b.text("skyline", FigureText.of("skyline.share"), 12, 20, bold, theme.ink());
        if (picture.solved() == null) {
            b.text("skyline", FigureText.of("skyline.nothing"), 12, 60, small, theme.quiet());
            return;
        }
        double x1 = SectionLayout.MARGIN - 10;
        double x2 = layout.width - SectionLayout.MARGIN + 10;
        String[] ticks = {"100 %", "1 %", "0.01 %", "1 ppm"};
        for (int i = 0; i < ticks.length; i++) {
            double y = level(Math.pow(100, -i));
            b.segment(x1, y, x2, y, theme.rule(), 0.8);
            b.right("skyline axis", ticks[i], x1 - 4, y + 4, small, theme.quiet());
        }
        List<String> streams = new ArrayList<>();
        picture.solved().cavities().values().forEach(c -> c.streamFractions().forEach((k, v) -> {
            if (v > TRACE && !streams.contains(k)) {
                streams.add(k);
            }
        }));
        double key = layout.width - 24;
        for (int i = streams.size() - 1; i >= 0; i--) {
            String stream = streams.get(i);
            FluidLook look = FluidLook.of(picture.model(), stream);
            Color color = Theme.blend(theme.of(look), theme.ink(), 0.2);
            float[] dash = DASHES[i % DASHES.length];
            for (SectionLayout.Lane lane : layout.lanes) {
                Path2D path = new Path2D.Double();
                boolean started = false;
                for (String name : lane.all()) {
                    SectionLayout.Chamber c = layout.chambers.get(name);
                    SolveResult.CavityState state = picture.solved().cavities().get(name);
                    if (state == null) {
                        continue;
                    }
                    double y = level(state.streamFractions().getOrDefault(stream, 0.0));
                    if (started) {
                        path.lineTo(c.x, y);
                    } else {
                        path.moveTo(c.x, y);
                        started = true;
                    }
                    path.lineTo(c.right(), y);
                }
                if (started) {
                    if (dash.length == 0) {
                        b.line(path, color, 2);
                    } else {
                        b.dashed(path, color, 2, dash);
                    }
                }
            }
            double w = Lettering.width(small, stream);
            b.right("skyline key", stream, key, 20, small, theme.ink());
            Line2D sample = new Line2D.Double(key - w - 34, 16, key - w - 6, 16);
            if (dash.length == 0) {
                b.line(sample, color, 2);
            } else {
                b.dashed(sample, color, 2, dash);
            }
            key -= w + 48;
        }
        for (SectionLayout.Chamber c : layout.chambers.values()) {
            SolveResult.CavityState state = picture.solved().cavities().get(c.cavity.name());
            if (state != null) {
                // The streams that do not fill the chamber: what got across.
                state.streamFractions().entrySet().stream()
                        .filter(e -> e.getValue() > TRACE && e.getValue() < 0.5)
                        .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                        .limit(2)
                        .forEach(e -> place(
                                c, trace(e.getValue()), c.centre(), level(e.getValue()) - 5, level(e.getValue())));
            }
        }
    }

    private String trace(double share) {
        return share >= 1e-3 ? readout.share(share) : FigureText.of("skyline.ppm", Readout.number(share * 1e6, 2));
    }

    private double level(double share) {
        double s = (Math.log10(Math.max(share, TRACE)) - Math.log10(TRACE)) / -Math.log10(TRACE);
        return bottom - s * (bottom - top);
    }

    private void range() {
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (String name : layout.chambers.keySet()) {
            SolveResult.CavityState state = picture.solved().cavities().get(name);
            if (state != null) {
                least = Math.min(least, number(state));
                most = Math.max(most, number(state));
            }
        }
        if (!(least < Double.POSITIVE_INFINITY)) {
            least = 0.1;
            most = 1;
        }
        if (logarithmic) {
            low = step(least * 0.8, false);
            high = step(most * 1.1, true);
        } else {
            double unit = Math.pow(10, Math.floor(Math.log10(Math.max(most - Math.min(0, least), 1e-9))));
            low = temperature ? Math.floor(Math.min(0, least) / unit) * unit : 0;
            high = Math.ceil(most * 1.05 / (unit / 2)) * unit / 2;
        }
    }

    /** The next of 1, 2, 5 times a power of ten, outward. */
    private static double step(double number, boolean up) {
        double power = Math.pow(10, Math.floor(Math.log10(number)));
        double[] steps = {1, 2, 5, 10};
        if (up) {
            for (double s : steps) {
                if (s * power >= number) {
                    return s * power;
                }
            }
            return 10 * power;
        }
        for (int i = steps.length - 1; i >= 0; i--) {
            if (steps[i] * power <= number) {
                return steps[i] * power;
            }
        }
        return power;
    }

    /** Wider drawings, drawing units, have the axis numbers at both ends: nobody sees both at once, on paper they come in halves. */
    static final double TWO_ENDS = 1450;

    private void axis() {
        double x1 = SectionLayout.MARGIN - 10;
        double x2 = layout.width - SectionLayout.MARGIN + 10;
        List<Double> ticks = new ArrayList<>();
        if (logarithmic) {
            for (double power = Math.pow(10, Math.floor(Math.log10(low))); power <= high * 1.001; power *= 10) {
                for (double s : new double[] {1, 2, 5}) {
                    if (s * power >= low * 0.999 && s * power <= high * 1.001) {
                        ticks.add(s * power);
                    }
                }
            }
        } else {
            double unit = Math.pow(10, Math.floor(Math.log10(high - low)));
            double step = (high - low) / unit > 5 ? unit : (high - low) / unit > 2 ? unit / 2 : unit / 5;
            for (int i = 0; low + i * step <= high + step * 1e-6; i++) {
                ticks.add(low + i * step);
            }
        }
        double last = Double.POSITIVE_INFINITY;
        for (double tick : ticks) {
            double y = y(tick);
            b.segment(x1, y, x2, y, theme.rule(), 0.8);
            if (last - y >= 13) {
                String text = new BigDecimal(tick)
                        .round(new MathContext(3))
                        .stripTrailingZeros()
                        .toPlainString();
                b.right("skyline axis", text, x1 - 4, y + 4, small, theme.quiet());
                if (layout.width > TWO_ENDS) {
                    b.text("skyline axis", text, x2 + 4, y + 4, small, theme.quiet());
                }
                last = y;
            }
        }
    }

    private void line(SectionLayout.Lane lane, SolveResult.Converged solved, boolean reference) {
        Path2D path = new Path2D.Double();
        boolean started = false;
        List<String> all = lane.all();
        for (int i = 0; i < all.size(); i++) {
            SectionLayout.Chamber c = layout.chambers.get(all.get(i));
            SolveResult.CavityState state = solved.cavities().get(all.get(i));
            if (state == null) {
                continue;
            }
            double y = y(number(state));
            if (!started) {
                path.moveTo(c.x, y);
                started = true;
            } else {
                path.lineTo(c.x, y);
            }
            path.lineTo(c.right(), y);
            if (i + 1 < all.size() && !temperature) {
                stages(path, lane, c, layout.chambers.get(all.get(i + 1)), solved);
            }
        }
        if (!started) {
            return;
        }
        if (reference) {
            b.dashed(path, theme.quiet(), 1.2, 5f, 4f);
        } else if (lane.up) {
            b.line(path, theme.ink(), 2.2);
        } else {
            b.dashed(path, theme.ink(), 2, 9f, 4f);
        }
    }

    /** Pressures after each tooth, where the seal gives them. */
    private void stages(
            Path2D path,
            SectionLayout.Lane lane,
            SectionLayout.Chamber left,
            SectionLayout.Chamber right,
            SolveResult.Converged solved) {
        for (SectionLayout.Gap gap : layout.gaps) {
            if (gap.lane() != lane || gap.left() != left || gap.right() != right) {
                continue;
            }
            SolveResult.PassageState state = solved.passages().get(gap.seal().name());
            if (state == null || state.flow().stagePressures().length < 2) {
                return;
            }
            double[] stages = state.flow().stagePressures();
            boolean toRight = state.upstream().equals(left.cavity.name());
            int n = stages.length;
            double from = gap.x() + 6;
            double width = (gap.width() - 12) / n;
            for (int i = 0; i < n; i++) {
                double after = readout.pressureNumber(stages[toRight ? i : n - 1 - i]);
                double x = from + (i + (toRight ? 1 : 0)) * width;
                path.lineTo(x, y(after));
                if (toRight ? i + 1 < n : i > 0 || n == 1) {
                    path.lineTo(x + (toRight ? width * 0.7 : width * 0.7), y(after));
                } else if (!toRight) {
                    path.lineTo(x + width * 0.7, y(after));
                }
            }
            return;
        }
    }

    // ---- what the criteria ask for

    private record Required(double limit, boolean leftHalf, String pointer) {}

    /** Limits in pressure that findings state for a passage, at the side the passage leaves. */
    private Map<String, List<Required>> required() {
        Map<String, List<Required>> result = new HashMap<>();
        for (Finding finding : picture.findings()) {
            if (!finding.unit().equals("Pa")
                    || !(finding.limit() > 0)
                    || !finding.id().startsWith("barrier-pressure")) {
                continue;
            }
            for (SectionLayout.Gap gap : layout.gaps) {
                if (!finding.where()
                        .equals(BarrierSection.passagePointer(gap.seal().name()))) {
                    continue;
                }
                SolveResult.PassageState state =
                        picture.solved().passages().get(gap.seal().name());
                if (state == null) {
                    continue;
                }
                double value = finding.value();
                SolveResult.CavityState l =
                        picture.solved().cavities().get(gap.left().cavity.name());
                SolveResult.CavityState r =
                        picture.solved().cavities().get(gap.right().cavity.name());
                if (l == null || r == null) {
                    continue;
                }
                boolean left = Math.abs(l.state().pressure() - value)
                        <= Math.abs(r.state().pressure() - value);
                String cavity = (left ? gap.left() : gap.right()).cavity.name();
                result.computeIfAbsent(cavity, k -> new ArrayList<>())
                        .add(new Required(readout.pressureNumber(finding.limit()), !left, finding.where()));
            }
        }
        return result;
    }

    private void labels(SectionLayout.Chamber c, List<Required> required) {
        SolveResult.CavityState state = picture.solved().cavities().get(c.cavity.name());
        if (state == null) {
            return;
        }
        double step = y(number(state));
        boolean aboveLeft = false;
        boolean aboveRight = false;
        boolean below = false;
        boolean leftDone = false;
        boolean rightDone = false;
        for (Required each : required) {
            if (each.leftHalf() ? leftDone : rightDone) {
                continue;
            }
            leftDone |= each.leftHalf();
            rightDone |= !each.leftHalf();
            double y = y(each.limit());
            double x1 = each.leftHalf() ? c.x + 2 : c.centre() + 4;
            double x2 = each.leftHalf() ? c.centre() - 4 : c.right() - 2;
            // The band above the edge in which the margin is thin.
            double thin = y(each.limit() * (1 + Draft.THIN_MARGIN));
            b.fill(
                    new Rectangle2D.Double(x1, thin, x2 - x1, Math.max(0, y - thin)),
                    Theme.blend(theme.paper(), theme.warn(), 0.28));
            b.segment(x1, thin, x2, thin, theme.warn(), 0.9);
            b.segment(x1, y, x2, y, theme.bad(), 1.6);
            Path2D edge = new Path2D.Double();
            for (double x = x1; x <= x2 - 4; x += 5) {
                edge.moveTo(x, y + 6);
                edge.lineTo(x + 4, y);
            }
            b.line(edge, theme.bad(), 0.9);
            boolean met = y >= step;
            String text = FigureText.of("skyline.required", Readout.number(each.limit(), 3));
            double baseline = met ? y + 18 : thin - 5;
            if (met && baseline > bottom + 6) {
                baseline = Math.max(y - 5, step + 12);
            }
            double half = Lettering.width(small, text) / 2;
            double x = (x1 + x2) / 2;
            double at = baseline;
            // Where two lanes ask for nearly the same, the edge alone is drawn; the findings have the number.
            if (occupied.stream().noneMatch(o -> o[0] < x + half && o[1] > x - half && Math.abs(o[2] - at) < 12)) {
                b.centred(each.pointer() + "#required", text, x, at, small, theme.ink());
                occupied.add(new double[] {x - half - 3, x + half + 3, at});
            }
            below |= met;
            aboveLeft |= !met && each.leftHalf();
            aboveRight |= !met && !each.leftHalf();
        }
        String text = Readout.number(number(state), 3);
        double x = c.centre();
        double baseline = step - 6;
        if ((aboveLeft && aboveRight) || ((aboveLeft || aboveRight) && !below)) {
            baseline = step + 14;
        } else if (aboveLeft) {
            x = c.x + c.width * 0.78;
        } else if (aboveRight) {
            x = c.x + c.width * 0.22;
        }
        place(c, text, x, baseline, step);
    }

    /** A second lane's chamber can stand over a first lane's; its number then moves below its step. */
    private void place(SectionLayout.Chamber c, String text, double x, double baseline, double step) {
        double half = Lettering.width(bold, text) / 2;
        double at = baseline;
        boolean free = false;
        if (!said.add(text + "@" + Math.round(x) + "," + Math.round(baseline))) {
            return;
        }
        for (double tried : new double[] {baseline, step + 14, baseline - 13, step + 27}) {
            at = tried;
            double y = tried;
            if (occupied.stream().noneMatch(o -> o[0] < x + half && o[1] > x - half && Math.abs(o[2] - y) < 12)) {
                free = true;
                break;
            }
        }
        if (!free) {
            return;
        }
        occupied.add(new double[] {x - half - 4, x + half + 4, at});
        Rectangle2D ground = new Rectangle2D.Double(x - half - 2, at - 9, 2 * half + 4, 11);
        if (layout.disc) {
            b.fill(ground, theme.paper());
        }
        b.centred(BarrierSection.cavityPointer(c.cavity.name()) + "#step", text, x, at, bold, theme.ink());
    }
}
