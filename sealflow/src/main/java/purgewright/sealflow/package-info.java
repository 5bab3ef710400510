/** What the rooms of sealflow share: typed notices. No findings are made here; hazard turns notices into findings. */
package purgewright.sealflow;
