package purgewright.figure;

import java.awt.Color;

/**
 * Colours of a drawing. The fluid and verdict hues are the colour-blind-safe set of M. Okabe and K. Ito, "Color Universal Design"
 * (2008); every hue is paired with a hatch or a shape, so that nothing is told by colour alone.
 *
 * @param name key of the theme
 * @param paper ground of the drawing
 * @param panel ground of text plates and chips
 * @param ink main lines and text
 * @param quiet secondary text
 * @param rule hairlines, grid
 * @param stator casing metal
 * @param rotor rotor metal
 * @param oxidizer blue
 * @param fuel orange
 * @param hotGas vermilion
 * @param purge green
 * @param air grey
 * @param other purple, for fluids that are none of these
 * @param good tint of "holds"
 * @param warn tint of "thin"
 * @param bad tint of "falls short"
 * @param unknown tint of "not established" and "not converged"
 * @param focus ring around what is selected
 * @param tint how strongly a chamber is tinted by its fluid, 0 to 1
 */
public record Theme(
        String name,
        Color paper,
        Color panel,
        Color ink,
        Color quiet,
        Color rule,
        Color stator,
        Color rotor,
        Color oxidizer,
        Color fuel,
        Color hotGas,
        Color purge,
        Color air,
        Color other,
        Color good,
        Color warn,
        Color bad,
        Color unknown,
        Color focus,
        double tint) {

    /** Dark ink on near-white paper; the one that prints. */
    public static final Theme LIGHT = new Theme(
            "light",
            new Color(0xFBFBF8),
            new Color(0xFFFFFF),
            new Color(0x1C2328),
            new Color(0x586269),
            new Color(0xD5D8D6),
            new Color(0xC9CDCC),
            new Color(0x8F979B),
            new Color(0x0072B2),
            new Color(0xE69F00),
            new Color(0xD55E00),
            new Color(0x009E73),
            new Color(0x7F868A),
            new Color(0xCC79A7),
            new Color(0x009E73),
            new Color(0xE69F00),
            new Color(0xD55E00),
            new Color(0x56B4E9),
            new Color(0x0B4F8A),
            0.10);

    /** Light ink on dark paper. */
    public static final Theme DARK = new Theme(
            "dark",
            new Color(0x171B1F),
            new Color(0x20262B),
            new Color(0xE8ECEE),
            new Color(0xA4AEB5),
            new Color(0x3A434A),
            new Color(0x49535B),
            new Color(0x77838B),
            new Color(0x4FA9DE),
            new Color(0xF0B63A),
            new Color(0xF07F3C),
            new Color(0x2FC49A),
            new Color(0x98A1A6),
            new Color(0xDD94BC),
            new Color(0x2FC49A),
            new Color(0xF0B63A),
            new Color(0xF07F3C),
            new Color(0x7CC8F2),
            new Color(0x9AD1FF),
            0.16);

    /** Black, white and few strong hues. */
    public static final Theme CONTRAST = new Theme(
            "contrast",
            Color.WHITE,
            Color.WHITE,
            Color.BLACK,
            new Color(0x202020),
            new Color(0x808080),
            new Color(0xD0D0D0),
            new Color(0x606060),
            new Color(0x004B7A),
            new Color(0x8A5F00),
            new Color(0xA03C00),
            new Color(0x00593F),
            new Color(0x404040),
            new Color(0x7A2A55),
            new Color(0x00593F),
            new Color(0x8A5F00),
            new Color(0xA03C00),
            new Color(0x004B7A),
            Color.BLACK,
            0.0);

    /** The theme of that name, light when there is none. */
    public static Theme named(String name) {
        return switch (name) {
            case "dark" -> DARK;
            case "contrast" -> CONTRAST;
            default -> LIGHT;
        };
    }

    /** Hue of a fluid. */
    public Color of(FluidLook look) {
        return switch (look) {
            case OXIDIZER -> oxidizer;
            case FUEL -> fuel;
            case HOT_GAS -> hotGas;
            case PURGE -> purge;
            case AIR -> air;
            case OTHER -> other;
        };
    }

    /** Ground of a chamber that holds the fluid: the hue laid thinly over paper. */
    public Color wash(FluidLook look) {
        return blend(paper, of(look), tint);
    }

    /** {@code share} of the second colour over the first. */
    public static Color blend(Color under, Color over, double share) {
        double s = Math.max(0, Math.min(1, share));
        return new Color(
                (int) Math.round(under.getRed() + s * (over.getRed() - under.getRed())),
                (int) Math.round(under.getGreen() + s * (over.getGreen() - under.getGreen())),
                (int) Math.round(under.getBlue() + s * (over.getBlue() - under.getBlue())));
    }
}
