package org.isopach.dicom.codec;

import java.io.IOException;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.atomic.AtomicReference;

/** The processes of one codec: as many as frames are decoded at once. For any number of threads. */
public final class DecoderPool {
  private static final Map<NativeCodec, DecoderPool> POOLS = pools();

  private final NativeCodec codec;
  private final String library;
  private final boolean reused;
  private final Deque<DecoderWorker> idle = new ConcurrentLinkedDeque<>();
  private final AtomicReference<Boolean> present = new AtomicReference<>();

  /**
   * Makes a pool.
   *
   * @param reused whether a process goes on after it refused a frame; what a damaged frame may have
   *     done to its memory could then reach the next one
   */
  DecoderPool(NativeCodec codec, String library, boolean reused) {
    this.codec = codec;
    this.library = library;
    this.reused = reused;
  }

  private static Map<NativeCodec, DecoderPool> pools() {
    Map<NativeCodec, DecoderPool> pools = new EnumMap<>(NativeCodec.class);
    for (NativeCodec codec : NativeCodec.values()) {
      pools.put(codec, new DecoderPool(codec, codec.library(), false));
    }
    return pools;
  }

  /** Returns the pool of a codec; the same every time. */
  public static DecoderPool of(NativeCodec codec) {
    return POOLS.get(codec);
  }

  /** Returns whether the library is there; asked until a process could be started to say so. */
  public boolean present() {
    Boolean known = present.get();
    if (known != null) {
      return known;
    }
    try {
      idle.push(DecoderWorker.start(codec, library));
      present.set(true);
      return true;
    } catch (DecoderWorker.Missing e) {
      present.set(false);
      return false;
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * Decodes a frame.
   *
   * @param header the frame's own, checked by the caller against what it expects
   * @return the samples row by row, the lower 16 bits of each, big endian
   * @throws IOException when the frame is damaged, or makes the library fail or hang
   */
  public byte[] decode(byte[] frame, StreamHeader header) throws IOException {
    DecoderWorker worker = idle.poll();
    while (worker != null && !worker.alive()) {
      worker = idle.poll();
    }
    return decode(worker == null ? DecoderWorker.start(codec, library) : worker, frame, header);
  }

  private byte[] decode(DecoderWorker worker, byte[] frame, StreamHeader header)
      throws IOException {
    boolean decoded = false;
    try {
      byte[] samples = worker.decode(frame, header);
      decoded = true;
      return samples;
    } finally {
      if (worker.alive() && (decoded || reused)) {
        idle.push(worker);
      } else {
        worker.end();
      }
    }
  }
}
