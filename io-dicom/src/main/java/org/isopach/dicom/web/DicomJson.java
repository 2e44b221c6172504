package org.isopach.dicom.web;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Reads data sets in the DICOM JSON model (PS3.18, annex F) as a stream; attributes nobody wants
 * are skipped without being held.
 */
final class DicomJson {
  private static final int DEEPEST = 64;
  private static final int LONGEST_TEXT = 64 * 1024;
  private static final int MOST_VALUES = 64;
  private static final int DEEPEST_ITEM = 4;
  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          .disable(JsonFactory.Feature.CANONICALIZE_FIELD_NAMES)
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(DEEPEST)
                  .maxStringLength(LONGEST_TEXT)
                  .maxNameLength(LONGEST_TEXT)
                  .maxNumberLength(1000)
                  .build())
          .build();

  private final Set<String> wanted;
  private final int most;
  private int count;

  private DicomJson(Set<String> wanted, int most) {
    this.wanted = wanted;
    this.most = most;
  }

  /**
   * A data set or an item of a sequence.
   *
   * @param texts values by tag (eight hexadecimal digits, large letters), numbers as text
   * @param items of sequences, by tag
   */
  record Item(Map<String, List<String>> texts, Map<String, List<Item>> items) {
    /** Returns all values with backslashes between; empty when absent. */
    String text(String tag) {
      return String.join("\\", texts.getOrDefault(tag, List.of()));
    }

    /** Returns the items of a sequence. */
    List<Item> sequence(String tag) {
      return items.getOrDefault(tag, List.of());
    }
  }

  /**
   * Reads an array of data sets, or one.
   *
   * @param wanted tags that are kept, at every level
   * @param most data sets and items together
   * @throws WebException when it is something else, too deep, or too much
   */
  static List<Item> read(InputStream in, Set<String> wanted, int most) throws IOException {
    try (JsonParser parser = FACTORY.createParser(in)) {
      return new DicomJson(wanted, most).all(parser);
    } catch (JsonProcessingException e) {
      throw WebException.lasting("the answer is not DICOM JSON", e);
    }
  }

  private List<Item> all(JsonParser parser) throws IOException {
    List<Item> all = new ArrayList<>();
    JsonToken first = parser.nextToken();
    if (first == JsonToken.START_OBJECT) {
      all.add(item(parser, 1));
    } else if (first == JsonToken.START_ARRAY) {
      while (parser.nextToken() == JsonToken.START_OBJECT) {
        all.add(item(parser, 1));
      }
    }
    if (first == null || !parser.currentToken().isStructEnd() || parser.nextToken() != null) {
      throw WebException.lasting("the answer is not DICOM JSON");
    }
    return all;
  }

  private Item item(JsonParser parser, int depth) throws IOException {
    count++;
    if (count > most) {
      throw WebException.lasting("the answer holds more than " + most + " data sets");
    }
    Item item = new Item(new TreeMap<>(), new TreeMap<>());
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      String tag = parser.currentName().toUpperCase(Locale.ROOT);
      if (parser.nextToken() == JsonToken.START_OBJECT && wanted.contains(tag)) {
        attribute(parser, item, tag, depth);
      } else {
        parser.skipChildren();
      }
    }
    return item;
  }

  private void attribute(JsonParser parser, Item item, String tag, int depth) throws IOException {
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      boolean value = parser.currentName().equals("Value");
      if (parser.nextToken() == JsonToken.START_ARRAY && value) {
        values(parser, item, tag, depth);
      } else {
        parser.skipChildren();
      }
    }
  }

  private void values(JsonParser parser, Item item, String tag, int depth) throws IOException {
    List<String> texts = new ArrayList<>();
    List<Item> items = new ArrayList<>();
    for (JsonToken token = parser.nextToken();
        token != JsonToken.END_ARRAY;
        token = parser.nextToken()) {
      if (token == JsonToken.START_OBJECT && depth < DEEPEST_ITEM) {
        items.add(item(parser, depth + 1));
      } else if (token.isScalarValue() && texts.size() < MOST_VALUES) {
        texts.add(token == JsonToken.VALUE_NULL ? "" : parser.getText());
      } else {
        parser.skipChildren();
      }
    }
    item.texts().put(tag, texts);
    item.items().put(tag, items);
  }
}
