package org.isopach.dicom.check;

import java.util.List;
import java.util.Optional;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;

/** The part of a condition of the standard that a machine can evaluate. */
sealed interface Condition {
  Truth evaluate(Scope scope);

  /** The attribute is present, here or in what encloses it. */
  record Present(int tag) implements Condition {
    @Override
    public Truth evaluate(Scope scope) {
      return Truth.of(scope.has(tag));
    }
  }

  /** The attribute is present anywhere in the object. */
  record Anywhere(int tag) implements Condition {
    @Override
    public Truth evaluate(Scope scope) {
      return Truth.of(scope.anywhere(tag));
    }
  }

  /** The attribute is absent or has no value. */
  record Empty(int tag) implements Condition {
    @Override
    public Truth evaluate(Scope scope) {
      return Truth.of(scope.find(tag).map(e -> e.multiplicity() == 0).orElse(true));
    }
  }

  /** The value at a 1-based position is one of some; an absent value is none of them. */
  record ValueIs(int tag, int position, List<String> any) implements Condition {
    public ValueIs {
      any = List.copyOf(any);
    }

    @Override
    public Truth evaluate(Scope scope) {
      return Truth.of(Values.at(scope.find(tag), position).map(any::contains).orElse(false));
    }
  }

  /** The first value is a number above a bound. */
  record Above(int tag, double bound) implements Condition {
    @Override
    public Truth evaluate(Scope scope) {
      return Truth.of(
          scope.find(tag).orElse(null) instanceof Element.Numbers numbers
              && !numbers.values().isEmpty()
              && numbers.values().get(0) > bound);
    }
  }

  /** A code sequence has an item with one of some codes. */
  record HasCode(int tag, List<Code> any) implements Condition {
    public HasCode {
      any = List.copyOf(any);
    }

    @Override
    public Truth evaluate(Scope scope) {
      if (!(scope.find(tag).orElse(null) instanceof Element.Sequence sequence)) {
        return Truth.FALSE;
      }
      return Truth.of(sequence.items().stream().anyMatch(this::matches));
    }

    private boolean matches(Dataset item) {
      Optional<Code> code = Code.of(item);
      return code.isPresent() && any.stream().anyMatch(code.get()::sameAs);
    }
  }

  /** Some text of the object has characters beyond ASCII. */
  record NonAscii() implements Condition {
    @Override
    public Truth evaluate(Scope scope) {
      return Truth.of(scope.nonAscii());
    }
  }

  /** The data set alone cannot tell. */
  record Unknown(String what) implements Condition {
    @Override
    public Truth evaluate(Scope scope) {
      return Truth.UNKNOWN;
    }
  }

  /** The opposite. */
  record Not(Condition of) implements Condition {
    @Override
    public Truth evaluate(Scope scope) {
      return switch (of.evaluate(scope)) {
        case TRUE -> Truth.FALSE;
        case FALSE -> Truth.TRUE;
        case UNKNOWN -> Truth.UNKNOWN;
      };
    }
  }

  /** All hold. */
  record All(List<Condition> of) implements Condition {
    public All {
      of = List.copyOf(of);
    }

    @Override
    public Truth evaluate(Scope scope) {
      return of.stream().map(c -> c.evaluate(scope)).reduce(Truth.TRUE, Truth::and);
    }
  }

  /** At least one holds. */
  record Any(List<Condition> of) implements Condition {
    public Any {
      of = List.copyOf(of);
    }

    @Override
    public Truth evaluate(Scope scope) {
      return of.stream().map(c -> c.evaluate(scope)).reduce(Truth.FALSE, Truth::or);
    }
  }
}
