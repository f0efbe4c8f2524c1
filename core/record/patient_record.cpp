// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/patient_record.h"

namespace evenfall {

PatientRecord::PatientRecord() = default;
PatientRecord::PatientRecord(const PatientRecord& other) = default;
PatientRecord::PatientRecord(PatientRecord&& other) noexcept = default;
PatientRecord& PatientRecord::operator=(const PatientRecord& other) = default;
PatientRecord& PatientRecord::operator=(PatientRecord&& other) noexcept = default;
PatientRecord::~PatientRecord() = default;

}  // namespace evenfall
