package org.isopach.report.fhir;

import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/**
 * Gathers resources in a transaction that may be posted any number of times and leaves one of each:
 * what is ours is put under an id made of its name, what others may have already is made only where
 * it is not there.
 */
final class FhirEntries {
  private static final String UUID_URN = "urn:uuid:";

  private final Bundle bundle = new Bundle();

  FhirEntries() {
    bundle.setType(Bundle.BundleType.TRANSACTION);
  }

  Bundle bundle() {
    return bundle;
  }

  /** Adds a resource of ours; the same name is the same resource, in any run. */
  Reference put(String name, Resource resource) {
    String id = FhirText.uuid(name);
    resource.setId(id);
    entry(id, resource)
        .getRequest()
        .setMethod(Bundle.HTTPVerb.PUT)
        .setUrl(resource.fhirType() + "/" + id);
    return new Reference(UUID_URN + id);
  }

  /** Adds a resource that is made only where the server has none with this identifier. */
  Reference createUnlessThere(String name, Resource resource, Identifier identifier) {
    String id = FhirText.uuid(name);
    entry(id, resource)
        .getRequest()
        .setMethod(Bundle.HTTPVerb.POST)
        .setUrl(resource.fhirType())
        .setIfNoneExist(FhirText.search(identifier.getSystem(), identifier.getValue()));
    return new Reference(UUID_URN + id);
  }

  private Bundle.BundleEntryComponent entry(String id, Resource resource) {
    return bundle.addEntry().setFullUrl(UUID_URN + id).setResource(resource);
  }
}
