/** Results for people: the text report on standard output and the documents that leave the tool. No formulas, no window. */
package purgewright.report;
