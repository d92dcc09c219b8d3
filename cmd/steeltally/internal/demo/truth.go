package demo

import (
	"math"
	"math/rand/v2"
	"time"

	"steeltally/geometry"
	"steeltally/inventory/wear/truth"
)

// The ground truth besides the wear of steel. All of it is invented to be plausible;
// where it follows common practice there is no source for it either.

// How big a book is.
const (
	usualEvents   = 40_000
	usualSeasons  = 1.5
	openingEvents = 1_900 // everything that the club has when the book begins
	seasonEvents  = (usualEvents - openingEvents) / usualSeasons
	leastSeasons  = 0.05
)

// Who is there.
const (
	defenders    = 8
	forwards     = 17
	goalkeepers  = 3
	summerLeaves = 7    // skaters who leave in a summer
	keeperLeaves = 0.4  // goalkeepers who leave in a summer
	campTryouts  = 6    // who come to the camp only
	dressed      = 20   // skaters in a game
	hurtShare    = .005 // of a player's sessions in which he is hurt
	hurtMost     = 35   // days that he is out then
	callUpAt     = 3    // skaters out, from which on one is called up
	callUpDays   = 16   // that he stays at most
	tradeWeek    = 20   // of the season
)

// How much is ground: visits to the wheel on first-pair steel.
const (
	practiceVisits  = 1.9 // a skater's mean for a practice
	gameVisits      = 4.2 // and for a game
	skateShare      = .65 // of a practice's, in the morning of a game
	keeperPractice  = .85 // a goalkeeper's
	keeperGame      = 1.4
	appetiteSpread  = .40 // of the visits between players, log scale
	mostAppetite    = 2.3
	leastAppetite   = .5
	mostInGame      = 8.0 // visits, even of the heaviest user
	honeShare       = .08 // of visits that are for a hone, no passes
	restingVisits   = .1  // how often the spare's steel is ground between two tries
	togetherShare   = .25 // of practices whose first grinds are one entry for all
	extraShare      = .03 // of grinds with one or two more passes than usual
	unevenShare     = .02 // with one more on one side
	evenedShare     = .015
	profilePasses   = 7 // that a new profile takes, at least, and three more at most
	newHollowPasses = 8
)

// How the record slips, shares of the grinds or changes.
const (
	lateShare       = .04   // entered hours later
	neverShare      = .008  // never entered
	twiceShare      = .0018 // scanned twice within a minute
	twiceOnPurpose  = .15   // of these: it really was ground twice
	wrongShare      = .0012 // scanned for another player
	unscannedShare  = .02   // of the times at which two sets in turn are exchanged
	crossedShare    = .02   // of the changes: left and right mixed up
	wrongSetShare   = .04   // of the changes: another set's tag scanned, undone at once
	refusedShare    = .06   // of the changes: the player would rather wait
	misjudgedShare  = .08   // of the removed sets: put back, there was steel left
	slipShare       = .02   // of the caliper's readings
	threePointShare = .35   // of the measurements at toe, middle and heel
	looseShare      = .85   // of the changes with the last heights measured
	newMeasured     = .4    // of the new sets measured after the first grind
	postponements   = .012  // games moved, a day
	wrongCounts     = .15   // of the deliveries counted wrongly at first
	fittedSpread    = 2.2   // caliper's spread on fitted steel against loose
	hostsGrind      = .15   // of the trips: the hosts grind, passes unknown
)

// What breaks, chances per player and session.
const (
	steelRisk     = .0030 // at riskHeight above the change height
	riskHeight    = 3.0   // mm
	riskGrowth    = .25   // log risk per mm less steel
	holderRisk    = .0016
	weakLotFactor = 5.0 // of the holders of one lot
	looseRisk     = .0050
	mendedChips   = .5 // of the chips that are ground out
)

// How heights spread.
const (
	judgement    geometry.Millimetre = .12 // spread of the height at which steel is taken to be due
	keepersSteel geometry.Millimetre = 24  // new, goalkeepers'
	keepersLow   geometry.Millimetre = 19
	toeDrop      geometry.Millimetre = .28
	heelDrop     geometry.Millimetre = .34
	mateReach    geometry.Millimetre = .5 // by which two runners of a set may differ
	turnReach    geometry.Millimetre = .3 // by which the set in use is lower before two in turn are exchanged
)

// Spare pairs.
const (
	neglectDays   = 42             // how long one thing is left undone
	tryDays       = 21             // between two tries of a spare pair
	lookDays      = 14             // between two looks at bolts and rivets
	bothMeasured  = .4             // of the weeks in which a first and a spare pair are both measured
	turnsShare    = .85            // of the players who have two sets in turn, one on the spare pair
	shelfSets     = 2              // ready sets that every player has, at least
	heavyShelf    = 3              // and those who use much
	callUpsNewest = 72 * time.Hour // before the end nobody is still up from the farm club
)

// skatersTruth is the stated truth of package truth with a narrow spread between clubs,
// so that the size of the book does not hang on the seed, and a loss on its lower side,
// so that a set takes about sixty grinds.
func skatersTruth() truth.Parameters {
	p := truth.Stated()
	p.LogWear, p.LogWearSpread = math.Log(.0168), .03
	return p
}

// keepersTruth is a goalkeeper's steel: thicker and flatter, so it loses less a pass.
func keepersTruth() truth.Parameters {
	p := skatersTruth()
	p.LogWear, p.NewHeight, p.ChangeHeight, p.UsualPasses = math.Log(.0155), keepersSteel, keepersLow, 4
	return p
}

// chance is the simulator's one source of luck.
type chance struct{ *rand.Rand }

// happens tells whether something of a probability comes about.
func (c chance) happens(probability float64) bool { return c.Float64() < probability }

// between draws a whole number from low to high, both included.
func (c chance) between(low, high int) int { return low + c.IntN(high-low+1) }

// within draws a while from least to most, in whole seconds.
func (c chance) within(least, most time.Duration) time.Duration {
	return least + time.Duration(c.Int64N(int64(most-least))).Truncate(time.Second)
}

// about draws a whole number, 0 or more, with a mean: the whole part for certain and
// the rest by luck.
func (c chance) about(mean float64) int {
	whole := int(mean)
	if c.happens(mean - float64(whole)) {
		whole++
	}
	return whole
}

// oneOf draws one of a list.
func oneOf[T any](c chance, list ...T) T { return list[c.IntN(len(list))] }

// shuffled is a copy of a list in another order.
func shuffled[T any](c chance, list []T) []T {
	mixed := append([]T(nil), list...)
	c.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
	return mixed
}
