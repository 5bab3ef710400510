/**
 * What a spinning wall does to the fluid in a cavity: pressure over radius, core swirl, windage. No flow network, no case file.
 */
package purgewright.sealflow.rotating;
