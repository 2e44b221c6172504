package org.isopach.job.watch;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;

/**
 * The folders of results: {@code UNIT/run-1}, {@code run-2} and so on, each whole and never changed
 * again. A run is written to {@code .run-N.part} beside its place, forced to the disk, and renamed.
 *
 * @param root the folder of results
 */
record ResultFolders(Path root) {
  /** Returns where a run's results are, or will be. */
  Path place(String name, int run) {
    return root.resolve(name).resolve("run-" + run);
  }

  /** Returns where a run's results are while it goes on. */
  Path part(String name, int run) {
    return root.resolve(name).resolve(".run-" + run + ".part");
  }

  /** Returns the number of the next run: its place is free. */
  int next(String name, int last) {
    int run = last + 1;
    while (Files.exists(place(name, run))) {
      run++;
    }
    return run;
  }

  /** Returns an empty folder for a run. */
  Path freshPart(String name, int run) throws IOException {
    discard(name, run);
    return Files.createDirectories(part(name, run));
  }

  /** Removes what a run has written, if it has not got its place yet. */
  void discard(String name, int run) throws IOException {
    try {
      Files.walkFileTree(part(name, run), new Removal());
    } catch (NoSuchFileException e) {
      return;
    }
  }

  /** Brings what a run has written to the disk. */
  void force(String name, int run) throws IOException {
    Files.walkFileTree(part(name, run), new Forcing());
    force(root.resolve(name));
    force(root);
  }

  /** Gives a run's results their place; nothing to do when they have it already. */
  void publish(String name, int run) throws IOException {
    Path part = part(name, run);
    if (Files.exists(part)) {
      Files.move(part, place(name, run), StandardCopyOption.ATOMIC_MOVE);
      force(root.resolve(name));
    }
  }

  private static void force(Path path) throws IOException {
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      channel.force(true);
    }
  }

  private static final class Forcing extends SimpleFileVisitor<Path> {
    @Override
    public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) throws IOException {
      force(file);
      return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult postVisitDirectory(Path folder, IOException e) throws IOException {
      if (e != null) {
        throw e;
      }
      force(folder);
      return FileVisitResult.CONTINUE;
    }
  }

  private static final class Removal extends SimpleFileVisitor<Path> {
    @Override
    public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) throws IOException {
      Files.delete(file);
      return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult postVisitDirectory(Path folder, IOException e) throws IOException {
      if (e != null) {
        throw e;
      }
      Files.delete(folder);
      return FileVisitResult.CONTINUE;
    }
  }
}
