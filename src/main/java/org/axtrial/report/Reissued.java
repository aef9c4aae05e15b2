package org.axtrial.report;

import java.time.Instant;
import org.axtrial.acceptance.LedgerEntry.ReportReissued;

/**
 * A further issue of a report.
 *
 * @param at when it is issued
 * @param issue which revision, why, by whom, and what it takes the place of; its own files are not known yet
 */
public record Reissued(Instant at, ReportReissued issue) {}
