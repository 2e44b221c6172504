package org.isopach.report.pdf;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.COSObjectable;
import org.apache.pdfbox.pdmodel.common.PDNumberTreeNode;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDMarkInfo;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDParentTreeValue;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureTreeRoot;
import org.apache.pdfbox.pdmodel.documentinterchange.markedcontent.PDMarkedContent;
import org.apache.pdfbox.pdmodel.documentinterchange.markedcontent.PDPropertyList;

/** The structure of a document for readers that speak it: headings, paragraphs, tables, figures. */
final class PdfTags {
  private final PDStructureTreeRoot root = new PDStructureTreeRoot();
  private final Deque<PDStructureElement> open = new ArrayDeque<>();
  private final List<COSArray> pages = new ArrayList<>();

  PdfTags() {
    PDStructureElement document = new PDStructureElement("Document", root);
    root.appendKid(document);
    open.push(document);
  }

  /** Tells of a new page. */
  void page(PDPage page) {
    page.setStructParents(pages.size());
    pages.add(new COSArray());
  }

  /** Opens an element that holds others. */
  void open(String role) {
    PDStructureElement element = new PDStructureElement(role, open.peek());
    open.peek().appendKid(element);
    open.push(element);
  }

  /** Closes the element opened last. */
  void close() {
    open.pop();
  }

  /**
   * Returns the properties of a piece of content that is an element of its own.
   *
   * @param alternative words for a figure; empty for text
   */
  PDPropertyList leaf(String role, String alternative, PDPage page) {
    PDStructureElement element = new PDStructureElement(role, open.peek());
    element.setPage(page);
    if (!alternative.isEmpty()) {
      element.setAlternateDescription(alternative);
    }
    open.peek().appendKid(element);
    COSArray here = pages.get(pages.size() - 1);
    COSDictionary properties = new COSDictionary();
    properties.setItem(COSName.MCID, COSInteger.get(here.size()));
    element.appendKid(new PDMarkedContent(COSName.getPDFName(role), properties));
    here.add(element.getCOSObject());
    return PDPropertyList.create(properties);
  }

  /** Hangs the structure into the document. */
  void finish(PDDocument document) {
    Map<Integer, COSObjectable> parents = new TreeMap<>();
    for (int i = 0; i < pages.size(); i++) {
      parents.put(i, new PDParentTreeValue(pages.get(i)));
    }
    PDNumberTreeNode tree = new PDNumberTreeNode(PDParentTreeValue.class);
    tree.setNumbers(parents);
    root.setParentTree(tree);
    root.setParentTreeNextKey(pages.size());
    PDMarkInfo marked = new PDMarkInfo();
    marked.setMarked(true);
    document.getDocumentCatalog().setMarkInfo(marked);
    document.getDocumentCatalog().setStructureTreeRoot(root);
  }
}
