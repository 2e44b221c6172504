package org.isopach.report.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Resource;

/** HAPI's validator of FHIR R4; slow to start, so all tests share it. */
public final class R4Validator {
  private static final FhirValidator VALIDATOR = start();

  private R4Validator() {}

  private static FhirValidator start() {
    FhirContext context = FhirContext.forR4Cached();
    ValidationSupportChain support =
        new ValidationSupportChain(
            new DefaultProfileValidationSupport(context),
            new CommonCodeSystemsTerminologyService(context),
            new InMemoryTerminologyServerValidationSupport(context));
    FhirValidator validator = context.newValidator();
    validator.registerValidatorModule(new FhirInstanceValidator(support));
    return validator;
  }

  /** Returns the errors in a resource, with their places. */
  public static synchronized List<String> errors(Resource resource) {
    return VALIDATOR.validateWithResult(resource).getMessages().stream()
        .filter(one -> one.getSeverity().compareTo(ResultSeverityEnum.ERROR) >= 0)
        .map(one -> one.getLocationString() + ": " + one.getMessage())
        .toList();
  }
}
