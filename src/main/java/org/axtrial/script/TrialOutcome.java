package org.axtrial.script;

import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Verdict;

/**
 * How a trial ended.
 *
 * @param key which trial on which axis
 * @param verdict worst of its checks and of what broke it
 * @param reason one sentence; empty for PASS
 */
public record TrialOutcome(TrialKey key, Verdict verdict, String reason) {}
