package org.axtrial.cli;

import org.axtrial.report.PdfPrinter.Paper;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads the name of a paper. */
final class PaperOption implements ITypeConverter<Paper> {

    @Override
    public Paper convert(String value) {
        try {
            return Paper.of(value);
        } catch (IllegalArgumentException e) {
            throw new TypeConversionException(e.getMessage());
        }
    }
}
