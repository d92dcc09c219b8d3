package grade

// Thresholds are the least values of a parameter for the levels 4, 3, 2 and 1, or the
// greatest where less is better; false for one that is passed or failed only.
func Thresholds(parameter string) ([4]float64, bool) {
	switch parameter {
	case SymbolContrast:
		return contrastScale, true
	case Modulation:
		return modulationScale, true
	case AxialUniformity:
		return axialScale, true
	case GridUniformity:
		return gridScale, true
	case UnusedCorrection:
		return spareScale, true
	case QuietZone:
		return quietScale, true
	}
	return [4]float64{}, false
}
