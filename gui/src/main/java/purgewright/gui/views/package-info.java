/** The further ways of looking at a case: charts, the fault matrix, the published checks. */
package purgewright.gui.views;
