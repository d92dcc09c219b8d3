package wear

import "steeltally/geometry"

// InUse is a runner that a forecast is asked for.
type InUse struct {
	Runner
	Since        float64 // passes since its last reading, or since new without one
	SinceUnknown bool
}

// Question puts a player's runner in use, and its partner if that is known, into
// a question. Players are numbered from 0 as in the record.
func (k Knowledge) Question(player int, own InUse, partner Runner, change geometry.Millimetre) (Question, error) {
	for _, r := range []Runner{own.Runner, partner} {
		if err := k.record.checkKind(r); err != nil {
			return Question{}, err
		}
	}
	prior, err := k.Pool.Prior(player)
	return Question{
		Prior: prior, Own: k.segments(own.Runner), Since: own.Since, SinceUnknown: own.SinceUnknown,
		Partner: k.segments(partner), Change: change,
	}, err
}

// ForecastRunner answers for one runner of a player's pair in use, with its partner if that
// is known.
func (k Knowledge) ForecastRunner(player int, own InUse, partner Runner, change geometry.Millimetre) (Forecast, error) {
	q, err := k.Question(player, own, partner, change)
	if err != nil {
		return Forecast{}, err
	}
	return k.constants.Forecast(q)
}

// Forecast answers for both runners of a player's pair in use, each with the other as
// its partner.
func (k Knowledge) Forecast(player int, left, right InUse, change geometry.Millimetre) (PairForecast, error) {
	return k.forecast(player, left, right, [2]Runner{right.Runner, left.Runner}, change)
}

// ForecastApart is Forecast for runners that came together from other pairs: neither
// tells of the other, since a partner is whom a runner was ground with.
func (k Knowledge) ForecastApart(player int, left, right InUse, change geometry.Millimetre) (PairForecast, error) {
	return k.forecast(player, left, right, [2]Runner{}, change)
}

func (k Knowledge) forecast(player int, left, right InUse, partners [2]Runner, change geometry.Millimetre) (PairForecast, error) {
	l, err := k.Question(player, left, partners[0], change)
	if err != nil {
		return PairForecast{}, err
	}
	r, err := k.Question(player, right, partners[1], change)
	if err != nil {
		return PairForecast{}, err
	}
	return k.constants.forecastPair(l, r)
}
