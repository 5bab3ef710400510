/** Running clearance: growth by speed and temperature, allowances, rub. No flow. */
package purgewright.sealflow.gap;
