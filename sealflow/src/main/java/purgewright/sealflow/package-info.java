/** What the rooms of sealflow share: typed notices, one smooth step. No findings are made here; hazard turns notices into findings. */
package purgewright.sealflow;
