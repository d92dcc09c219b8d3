package deeds

import "steeltally/inventory"

// latestGiven is the highest running number given to a kind at a station.
func latestGiven(v inventory.View, kind inventory.Kind, station int) int {
	if given, ok := v.Entity(inventory.GivenRef(kind, station)).(*inventory.Given); ok {
		return given.Highest
	}
	return 0
}

// nextNumbers are count new numbers of a kind at the club's station.
func nextNumbers(v inventory.View, kind inventory.Kind, count int) ([]inventory.Number, error) {
	station, known := inventory.ClubOf(v).StationOf(v.Writer())
	if !known {
		return nil, inventory.Refuse("say it first: steeltally club --station DIGIT; a digit of a folder that is still in use is not yours",
			"this folder is a copy or was rebuilt, and could be any of the stations %s", inventory.SayDigits(inventory.ClubOf(v).Digits()))
	}
	first := latestGiven(v, kind, station) + 1
	numbers := make([]inventory.Number, count)
	for i := range numbers {
		n, err := inventory.NewNumber(kind, station, first+i)
		if err != nil {
			return nil, inventory.Refuse("give this station another digit: steeltally club --station DIGIT", "station %d has no %s numbers left", station, kind)
		}
		numbers[i] = n
	}
	return numbers, nil
}
