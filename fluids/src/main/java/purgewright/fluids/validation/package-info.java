/** Published and derived numbers that the computation is held against, as data that tests and the {@code validate} command share. */
package purgewright.fluids.validation;
