package purgewright.hazard.service;

/** Told how far long work has come. Called from any thread. */
@FunctionalInterface
public interface Progress {
    /** Nobody listens. */
    Progress NONE = (share, what) -> {};

    /**
     * @param share 0 to 1
     * @param what one or two words
     */
    void at(double share, String what);
}
