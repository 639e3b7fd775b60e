package history

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Vehicle is what a shop keeps of a vehicle between its visits. It needs nothing about a person.
type Vehicle struct {
	ID string
	// Revision counts the changes, from 1.
	Revision  int64
	CreatedAt time.Time
	UpdatedAt time.Time
	// Label is what the shop calls it.
	Label string
	VehicleTraits
}

// VehicleTraits are what is stored of a vehicle as one JSON document.
type VehicleTraits struct {
	// Size is "small", "medium", "large" or "very-large". Empty: not said.
	Size string `json:"size,omitempty"`
	// BuiltYear is the year it was built. Zero: not known.
	BuiltYear int   `json:"built_year,omitempty"`
	Paint     Paint `json:"paint,omitzero"`
	// Notes are for the shop's own use.
	Notes string `json:"notes,omitempty"`
}

// Paint is what is known of a vehicle's paint, in the contract's words. Empty and nil: not known.
type Paint struct {
	System    string `json:"system,omitempty"`
	Softness  string `json:"softness,omitempty"`
	Shade     string `json:"shade,omitempty"`
	HazeProne *bool  `json:"haze_prone,omitempty"`
}

// Check returns every complaint about the vehicle, each a [*InputError].
func (v *Vehicle) Check() error {
	errs := []error{CheckID("vehicle_id", v.ID), checkText("vehicle.label", v.Label, 100), checkText("vehicle.notes", v.Notes, 2000)}
	if strings.TrimSpace(v.Label) == "" {
		errs = append(errs, &InputError{Field: "vehicle.label", Says: "is missing; say what the shop calls it"})
	}
	if v.Size != "" && !slices.Contains([]string{"small", "medium", "large", "very-large"}, v.Size) {
		errs = append(errs, &InputError{Field: "vehicle.size", Says: fmt.Sprintf("%q is no size; it is small, medium, large or very-large", v.Size)})
	}
	if v.BuiltYear != 0 && (v.BuiltYear < 1885 || v.BuiltYear > 2200) {
		errs = append(errs, &InputError{Field: "vehicle.built_year", Says: fmt.Sprintf("is %d, allowed is 1885 to 2200", v.BuiltYear)})
	}
	return errors.Join(errs...)
}

// AgeYears is how old the vehicle is in a year; false if that is not known. A vehicle built that year is 0.
func (v *Vehicle) AgeYears(in int) (float64, bool) {
	if v.BuiltYear == 0 || in < v.BuiltYear {
		return 0, false
	}
	return float64(in - v.BuiltYear), true
}

// LabelKey is what lists of vehicles are in order of: the label in small letters, without space around it.
func LabelKey(label string) string { return strings.ToLower(strings.TrimSpace(label)) }

// LabelPrefix is the beginning of a label as [LabelKey] has it. Space at its end is kept: it asks for a whole word.
func LabelPrefix(prefix string) string { return strings.ToLower(strings.TrimLeft(prefix, " ")) }
