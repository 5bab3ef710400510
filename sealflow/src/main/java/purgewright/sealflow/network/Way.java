package purgewright.sealflow.network;

/** A search for a steady state that can be left and taken up again where it was. Owned by one thread. */
interface Way {
    /**
     * Goes on until it has ended, or at the end of the turn in which the network's count of work ({@link Network#work}) reaches a number.
     *
     * @return how it ended, or {@code PAUSED}
     */
    Descent.End go(long until);

    /** Where it is, evaluated; the answer once it has ended well. */
    Iterate at();
}
