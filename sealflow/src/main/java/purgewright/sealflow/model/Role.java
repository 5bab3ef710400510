package purgewright.sealflow.model;

/** What a cavity is for. Hazards are judged by the streams' elements, never by this word. */
public enum Role {
    OXIDIZER("oxidizer"),
    FUEL("fuel"),
    HOT_GAS("hot gas"),
    BEARING("bearing"),
    BARRIER("barrier"),
    DRAIN("drain"),
    SUPPLY("supply"),
    VENT("vent"),
    OTHER("other");

    private final String text;

    Role(String text) {
        this.text = text;
    }

    /** Word in the case file. */
    public String text() {
        return text;
    }
}
