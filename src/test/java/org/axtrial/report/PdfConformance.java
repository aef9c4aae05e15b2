package org.axtrial.report;

import java.io.ByteArrayInputStream;
import java.util.List;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Asks veraPDF, an independent validator of PDF/A and PDF/UA, what a file offends against. */
public final class PdfConformance {

    static {
        VeraGreenfieldFoundryProvider.initialise();
    }

    private PdfConformance() {}

    /** Each offence once, with clause and words of the rule; empty for a file that conforms. */
    public static List<String> offences(byte[] pdf, PDFAFlavour flavour) throws Exception {
        try (PDFAParser parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), flavour);
                PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false)) {
            ValidationResult result = validator.validate(parser);
            List<String> offences = result.getTestAssertions().stream()
                    .filter(assertion -> assertion.getStatus() == TestAssertion.Status.FAILED)
                    .map(assertion -> assertion.getRuleId().getClause() + "-"
                            + assertion.getRuleId().getTestNumber() + ": " + assertion.getMessage())
                    .distinct()
                    .toList();
            if (offences.isEmpty() != result.isCompliant() || result.getTotalAssertions() == 0) {
                throw new AssertionError("the validator contradicts itself: " + result);
            }
            return offences;
        }
    }
}
