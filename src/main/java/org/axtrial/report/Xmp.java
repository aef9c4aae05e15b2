package org.axtrial.report;

import java.time.temporal.ChronoUnit;

/** The metadata that tells a reader what kind of PDF it has before it (XMP, ISO 16684-1). */
final class Xmp {

    static final String PRODUCER = "Axtrial";

    private Xmp() {}

    /** Claims PDF/A-2a (ISO 19005-2, 6.6.4) and PDF/UA-1 (ISO 14289-1, 5); dates equal those of the file's dictionary. */
    static String packet(PdfPrinter.Sheet sheet) {
        String made = sheet.made().truncatedTo(ChronoUnit.SECONDS).toString();
        return """
                <?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>
                <x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
                <rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"
                  xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:dc="http://purl.org/dc/elements/1.1/"
                  xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
                  xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
                <pdfaid:part>2</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance><pdfuaid:part>1</pdfuaid:part>
                <xmp:CreateDate>%1$s</xmp:CreateDate><xmp:ModifyDate>%1$s</xmp:ModifyDate>
                <pdf:Producer>%2$s</pdf:Producer><dc:format>application/pdf</dc:format>
                <dc:title><rdf:Alt><rdf:li xml:lang="x-default">%3$s</rdf:li></rdf:Alt></dc:title>
                <dc:description><rdf:Alt><rdf:li xml:lang="x-default">%4$s</rdf:li></rdf:Alt></dc:description>
                <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
                <pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
                <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
                <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
                <pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
                <pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType>
                <pdfaProperty:category>internal</pdfaProperty:category><pdfaProperty:description>part of ISO 14289</pdfaProperty:description>
                </rdf:li></rdf:Seq></pdfaSchema:property>
                </rdf:li></rdf:Bag></pdfaExtension:schemas>
                </rdf:Description></rdf:RDF></x:xmpmeta>
                <?xpacket end="w"?>""".formatted(
                made, PRODUCER, Plot.escape(Words.clean(sheet.title())), Plot.escape(Words.clean(sheet.subject())));
    }
}
