package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Names beside points: right or left of the point, moved up or down until they meet neither each other nor a point. */
final class Tags {
    private static final double[] SHIFTS = {4, -9, 17, -22, 30, -35, 43, -48, -61, -74};

    private final Figure.Builder b;
    private final Font font;
    private final Rectangle2D page;
    private final List<Rectangle2D> taken = new ArrayList<>();

    Tags(Figure.Builder b, Font font, double width, double height) {
        this.b = b;
        this.font = font;
        this.page = new Rectangle2D.Double(4, 4, width - 8, height - 8);
    }

    /** Keeps an area free of names. */
    void keepFree(Rectangle2D area) {
        taken.add(area);
    }

    /** Areas that are taken. */
    List<Rectangle2D> taken() {
        return List.copyOf(taken);
    }

    /** Names a point; leaves the name out where there is no room, so that none ever covers another. */
    void tag(String owner, String text, double x, double y, boolean leftFirst) {
        double w = Lettering.width(font, text);
        for (double shift : SHIFTS) {
            for (int side = 0; side < 2; side++) {
                boolean left = leftFirst == (side == 0);
                Rectangle2D box =
                        new Rectangle2D.Double(left ? x - 10 - w : x + 10, y + shift - 10, w, font.getSize2D() + 2);
                if (page.contains(box) && taken.stream().noneMatch(box::intersects)) {
                    taken.add(box);
                    b.fill(
                            new Rectangle2D.Double(
                                    box.getX() - 2, box.getY() + 1, box.getWidth() + 4, box.getHeight() - 1),
                            b.theme().paper());
                    b.text(owner, text, box.getX(), y + shift, font, b.theme().ink());
                    return;
                }
            }
        }
    }

    /** Writes upon a line that runs upwards, lower down where something is in the way; inside the area, or not at all. */
    void upon(String owner, String text, double x, double y, Rectangle2D area) {
        double w = Lettering.width(font, text);
        double left = Math.max(area.getMinX() + 4, Math.min(area.getMaxX() - 4 - w, x - w / 2));
        for (int row = 0; row < SHIFTS.length; row++) {
            double base = y + row * (font.getSize2D() + 4);
            Rectangle2D box = new Rectangle2D.Double(left - 3, base - 10, w + 6, font.getSize2D() + 2);
            if (area.contains(box) && taken.stream().noneMatch(box::intersects)) {
                taken.add(box);
                b.fill(box, b.theme().paper());
                b.text(owner, text, left, base, font, b.theme().ink());
                return;
            }
        }
    }
}
