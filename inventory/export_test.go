package inventory

// What the tests of tallies look at from outside, where chance makes them.
var (
	ReasonOfTally  = reasonOfTally
	TallyFits      = tallyFits
	WithTallyCheck = withTallyCheck
)

const (
	QRAlphanumeric = qrAlphanumeric
	TallyVersion   = tallyVersion
)
