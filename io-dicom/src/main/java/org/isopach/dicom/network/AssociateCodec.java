package org.isopach.dicom.network;

import java.io.ByteArrayOutputStream;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.isopach.dicom.toolkit.PixelMedObjectWriter;

/** The bytes of A-ASSOCIATE-RQ and -AC (PS3.8, 9.3.2, 9.3.3 and annex D; PS3.7, D.3.3). */
final class AssociateCodec {
  private static final String APPLICATION_CONTEXT = "1.2.840.10008.3.1.1.1";
  private static final int TITLE = 16;
  private static final int RESERVED = 32;
  private static final int MOST_CONTEXTS = 128;
  private static final int BY_USER = 1;
  private static final int BY_ACSE = 2;
  private static final int CONTEXT_NAME_UNKNOWN = 2;
  private static final int VERSION_UNKNOWN = 2;
  private static final int MOST_SYNTAXES = 64;
  private static final int APPLICATION = 0x10;
  private static final int PROPOSED = 0x20;
  private static final int ANSWERED = 0x21;
  private static final int ABSTRACT = 0x30;
  private static final int TRANSFER = 0x40;
  private static final int USER = 0x50;
  private static final int MAXIMUM_LENGTH = 0x51;
  private static final int IMPLEMENTATION_CLASS = 0x52;
  private static final int ROLE = 0x54;
  private static final int IMPLEMENTATION_VERSION = 0x55;

  private AssociateCodec() {}

  /**
   * Reads a body.
   *
   * @throws AssociationException when a length runs past what encloses it, when a context's number
   *     is even or comes twice, or when protocol or application context are not those of DICOM
   */
  static AssociateBody decode(ByteBuffer body) throws AssociationException {
    try {
      return read(body);
    } catch (BufferUnderflowException | IllegalArgumentException e) {
      throw broken("its items run past its end");
    }
  }

  private static AssociateBody read(ByteBuffer body) throws AssociationException {
    if ((body.getShort() & 1) == 0) {
      throw AssociationException.unserved(
          BY_ACSE, VERSION_UNKNOWN, "protocol version 1 is not offered");
    }
    body.getShort();
    String called = padded(body, TITLE);
    String calling = padded(body, TITLE);
    skip(body, RESERVED);
    String application = "";
    List<PresentationContext> contexts = new ArrayList<>();
    List<String> roles = new ArrayList<>();
    long largest = 0;
    while (body.hasRemaining()) {
      int type = Byte.toUnsignedInt(body.get());
      ByteBuffer item = item(body);
      if (type == PROPOSED || type == ANSWERED) {
        contexts.add(context(item, type == ANSWERED));
      } else if (type == APPLICATION) {
        application = padded(item, item.remaining());
      } else if (type == USER) {
        largest = user(item, roles);
      }
    }
    check(application, contexts);
    return new AssociateBody(called, calling, contexts, largest, roles);
  }

  private static void check(String application, List<PresentationContext> contexts)
      throws AssociationException {
    if (!application.equals(APPLICATION_CONTEXT)) {
      throw AssociationException.unserved(
          BY_USER, CONTEXT_NAME_UNKNOWN, "the application context is not that of DICOM");
    }
    if (contexts.isEmpty() || contexts.size() > MOST_CONTEXTS) {
      throw broken("presentation contexts must be 1 to " + MOST_CONTEXTS);
    }
    if (contexts.stream().map(PresentationContext::id).distinct().count() != contexts.size()) {
      throw broken("a presentation context comes twice");
    }
  }

  private static ByteBuffer item(ByteBuffer from) {
    from.get();
    int length = Short.toUnsignedInt(from.getShort());
    ByteBuffer item = from.slice().limit(length);
    skip(from, length);
    return item;
  }

  private static PresentationContext context(ByteBuffer item, boolean answered)
      throws AssociationException {
    int id = Byte.toUnsignedInt(item.get());
    item.get();
    int result = Byte.toUnsignedInt(item.get());
    item.get();
    if ((id & 1) == 0) {
      throw broken("presentation context " + id + " is not odd");
    }
    String abstractSyntax = "";
    List<String> syntaxes = new ArrayList<>();
    while (item.hasRemaining()) {
      int type = Byte.toUnsignedInt(item.get());
      ByteBuffer sub = item(item);
      if (type == ABSTRACT) {
        abstractSyntax = padded(sub, sub.remaining());
      } else if (type == TRANSFER && syntaxes.size() < MOST_SYNTAXES) {
        syntaxes.add(padded(sub, sub.remaining()));
      }
    }
    if (answered && result == PresentationContext.ACCEPTED && syntaxes.size() != 1) {
      throw broken("presentation context " + id + " is accepted without one transfer syntax");
    }
    return new PresentationContext(id, abstractSyntax, syntaxes, answered ? result : 0);
  }

  private static long user(ByteBuffer item, List<String> roles) {
    long largest = 0;
    while (item.hasRemaining()) {
      int type = Byte.toUnsignedInt(item.get());
      ByteBuffer sub = item(item);
      if (type == MAXIMUM_LENGTH) {
        largest = Integer.toUnsignedLong(sub.getInt());
      } else if (type == ROLE) {
        String uid = padded(sub, Short.toUnsignedInt(sub.getShort()));
        sub.get();
        if (sub.get() == 1) {
          roles.add(uid);
        }
      }
    }
    return largest;
  }

  /** Returns the bytes of a request, or of an answer with {@code answer}. */
  static byte[] encode(AssociateBody body, boolean answer) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new byte[] {0, 1, 0, 0});
    out.writeBytes(title(body.calledAet()));
    out.writeBytes(title(body.callingAet()));
    out.writeBytes(new byte[RESERVED]);
    put(out, APPLICATION, ascii(APPLICATION_CONTEXT));
    for (PresentationContext context : body.contexts()) {
      put(out, answer ? ANSWERED : PROPOSED, contextBytes(context, answer));
    }
    put(out, USER, userBytes(body));
    return out.toByteArray();
  }

  private static byte[] contextBytes(PresentationContext context, boolean answer) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new byte[] {(byte) context.id(), 0, (byte) context.result(), 0});
    if (!answer) {
      put(out, ABSTRACT, ascii(context.abstractSyntax()));
    }
    for (String syntax : context.transferSyntaxes()) {
      put(out, TRANSFER, ascii(syntax));
    }
    return out.toByteArray();
  }

  private static byte[] userBytes(AssociateBody body) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    put(
        out,
        MAXIMUM_LENGTH,
        ByteBuffer.allocate(Integer.BYTES).putInt((int) body.largestPdu()).array());
    put(out, IMPLEMENTATION_CLASS, ascii(PixelMedObjectWriter.IMPLEMENTATION_CLASS_UID));
    for (String uid : body.storageRoles()) {
      byte[] name = ascii(uid);
      ByteBuffer role = ByteBuffer.allocate(Short.BYTES + name.length + 2);
      put(
          out,
          ROLE,
          role.putShort((short) name.length).put(name).put((byte) 0).put((byte) 1).array());
    }
    put(out, IMPLEMENTATION_VERSION, ascii(PixelMedObjectWriter.IMPLEMENTATION_VERSION_NAME));
    return out.toByteArray();
  }

  private static void put(ByteArrayOutputStream out, int type, byte[] value) {
    out.write(type);
    out.write(0);
    out.write(value.length >> 8);
    out.write(value.length);
    out.writeBytes(value);
  }

  private static byte[] title(String aet) {
    return ascii((aet + " ".repeat(TITLE)).substring(0, TITLE));
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  /** Returns text without the spaces or NULs it is padded with. */
  private static String padded(ByteBuffer from, int length) {
    if (length > from.remaining()) {
      throw new BufferUnderflowException();
    }
    byte[] bytes = new byte[length];
    from.get(bytes);
    return new String(bytes, StandardCharsets.ISO_8859_1).replace('\0', ' ').strip();
  }

  private static void skip(ByteBuffer from, int length) {
    from.position(from.position() + length);
  }

  private static AssociationException broken(String what) {
    return AssociationException.broken(
        AssociationException.INVALID_PARAMETER, "the association request is malformed: " + what);
  }
}
