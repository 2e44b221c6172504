package org.isopach.segment.tissue;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.FloatBuffer;
import java.util.Map;

/** One trained model of one input and one output, run on one thread a call; safe for several. */
final class OnnxModel {
  private final OrtEnvironment environment;
  private final OrtSession session;
  private final String input;

  private OnnxModel(byte[] model, String input) throws OrtException {
    this.input = input;
    this.environment = OrtEnvironment.getEnvironment();
    // The runtime's builds for one system report their use by default; nothing leaves this machine.
    environment.setTelemetry(false);
    try (OrtSession.SessionOptions options = new OrtSession.SessionOptions()) {
      options.setIntraOpNumThreads(1);
      options.setInterOpNumThreads(1);
      this.session = environment.createSession(model, options);
    }
  }

  /**
   * Loads a model that the program ships with.
   *
   * @param resource its file beside this class
   * @param input the name of its input
   * @throws IllegalStateException when it cannot run here, for example because ONNX Runtime has no
   *     native code for this system
   */
  static OnnxModel load(String resource, String input) {
    try (InputStream in = OnnxModel.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("the model is missing: " + resource);
      }
      return new OnnxModel(in.readAllBytes(), input);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (OrtException e) {
      throw new IllegalStateException("the model cannot be loaded: " + resource, e);
    } catch (LinkageError e) {
      throw new IllegalStateException("ONNX Runtime has no native code for this system", e);
    }
  }

  /**
   * Runs the model.
   *
   * @param values the input, row by row
   * @param shape its lengths along each axis
   * @param reader takes what it needs of the output before it is freed
   */
  <T> T run(float[] values, long[] shape, Reader<T> reader) {
    try (OnnxTensor tensor = OnnxTensor.createTensor(environment, FloatBuffer.wrap(values), shape);
        OrtSession.Result result = session.run(Map.of(input, tensor))) {
      return reader.read(((OnnxTensor) result.get(0)).getByteBuffer());
    } catch (OrtException e) {
      throw new IllegalStateException("the model failed", e);
    }
  }

  /** Takes what is needed of an output. */
  @FunctionalInterface
  interface Reader<T> {
    T read(ByteBuffer output);
  }
}
