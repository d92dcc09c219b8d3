package deeds

import (
	"fmt"

	"steeltally/inventory"
)

func refuse(hint, format string, args ...any) error {
	return &inventory.Refusal{Reason: fmt.Sprintf(format, args...), Hint: hint}
}

func badValue(hint, format string, args ...any) error {
	return &inventory.BadValue{Reason: fmt.Sprintf(format, args...), Hint: hint}
}
