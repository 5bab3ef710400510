/** End-to-end tests over the sample cases, and the test of who may know whom. Nobody imports this module. */
package purgewright.samples;
