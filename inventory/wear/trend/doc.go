// Package trend says whether steel differs: left from right, this season's
// removal heights from last month's, one lot's breakages from the others'.
//
// Many looks are the danger: with twenty players looked at every month, chance
// alone shows somebody as "significant" in nearly every season. So every
// comparison gives its interval, always, but the word "differs" only after a
// Plan has allowed for all comparisons and all looks of the season. Otherwise
// the answer is "can't say", with the difference that would have shown.
package trend
