package org.isopach.dicom.network;

import java.io.IOException;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.Optional;
import javax.net.ssl.KeyManager;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManager;
import javax.net.ssl.TrustManagerFactory;

/** Makes TLS contexts of key stores (PKCS #12). */
public final class TlsFiles {
  private TlsFiles() {}

  /**
   * Returns a context for TLS 1.2 and 1.3 as this Java allows it.
   *
   * @param key holds our private key and its certificates; empty for a caller without one
   * @param trust holds the certificates of peers or of who signs for them; empty for those Java
   *     trusts
   * @param password of both files
   * @throws IOException when a file cannot be read or the password is wrong
   */
  public static SSLContext context(Optional<Path> key, Optional<Path> trust, char[] password)
      throws IOException {
    try {
      KeyManager[] keys = key.isPresent() ? keys(key.get(), password) : null;
      TrustManager[] trusted = trust.isPresent() ? trusted(trust.get(), password) : null;
      SSLContext context = SSLContext.getInstance("TLS");
      context.init(keys, trusted, null);
      return context;
    } catch (GeneralSecurityException e) {
      throw new IOException("the key store cannot be used: " + e.getMessage(), e);
    }
  }

  private static KeyManager[] keys(Path file, char[] password)
      throws IOException, GeneralSecurityException {
    KeyManagerFactory factory =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    factory.init(KeyStore.getInstance(file.toFile(), password), password);
    return factory.getKeyManagers();
  }

  private static TrustManager[] trusted(Path file, char[] password)
      throws IOException, GeneralSecurityException {
    TrustManagerFactory factory =
        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
    factory.init(KeyStore.getInstance(file.toFile(), password));
    return factory.getTrustManagers();
  }
}
