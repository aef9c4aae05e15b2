/**
 * Signatures on evidence packs: key files, statements of who signed what and why, detached CMS signatures on them, time
 * stamps, the signed copy of the PDF report, and the check of all of these. The only place that knows Bouncy Castle.
 */
@NullMarked
package org.axtrial.signing;

import org.jspecify.annotations.NullMarked;
