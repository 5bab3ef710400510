/** The one door for window, commands, reports and the Java API. No physics of its own. */
package purgewright.hazard.service;
