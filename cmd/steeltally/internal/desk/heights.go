package desk

import (
	"fmt"
	"strconv"
	"strings"

	"steeltally/geometry"
	"steeltally/inventory"
)

// TypeHeights is how a height is typed, as ParseHeights reads it.
func TypeHeights(h inventory.Height) string {
	var typed []string
	for _, value := range []*geometry.Millimetre{h.Toe, h.Middle, h.Heel} {
		if value != nil {
			typed = append(typed, strconv.FormatFloat(float64(*value), 'f', -1, 64))
		}
	}
	return strings.Join(typed, ",")
}

// ParseHeights reads the heights of one runner as typed: the middle alone, or
// toe,middle,heel.
func ParseHeights(text string) (inventory.Height, error) {
	parts := strings.Split(text, ",")
	if len(parts) != 1 && len(parts) != 3 {
		return inventory.Height{}, &inventory.BadValue{Reason: fmt.Sprintf("%q is not one height, nor three", text), Hint: "give the middle alone, or toe,middle,heel"}
	}
	values := make([]*geometry.Millimetre, len(parts))
	for i, part := range parts {
		value, err := geometry.ParseHeight(part)
		if err != nil {
			return inventory.Height{}, &inventory.BadValue{Reason: err.Error(), Hint: "such as 11.2, or 11.1,11.2,11.0"}
		}
		values[i] = &value
	}
	if len(values) == 1 {
		return inventory.Height{Middle: values[0]}, nil
	}
	return inventory.Height{Toe: values[0], Middle: values[1], Heel: values[2]}, nil
}
