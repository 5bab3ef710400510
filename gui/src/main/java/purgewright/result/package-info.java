/**
 * Result JSON: what machines read. The only room beside the case file that may use Jackson. Keys are only ever added; one that is
 * removed or changes its meaning raises {@code result}.
 */
package purgewright.result;
