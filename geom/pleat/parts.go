package pleat

// What of a panel, or of the ruff's depth, may be taken up so that the rest still
// opens into loops. All are this project's judgement, no source: random half sets come
// to rest up to there, and a wave must keep a fiftieth of its length, or there is no
// loop to form.
const (
	TucksMost = 0.9  // of the panel, both tucks together
	TucksGood = 0.85 // the same, where the panel is chosen for its tucks
	TuckMost  = 0.8  // of the depth, one tuck
	GapMost   = 0.8  // of the depth, between two stitch lines
	WaveMost  = 0.98 // half the pitch, of the cloth between two folds
)

// What a fitted panel keeps beyond that. All are this project's judgement, no source.
const (
	// fitReach is the slack between folds sewn to both edges. At 1 the cloth is
	// stretched straight, and marks that scatter by a millimetre no longer reach.
	fitReach = 1.02
	// fitWave is the part of a panel that the wave of an edge takes up, at least:
	// with less it lies flat, and below 1 - WaveMost it cannot be solved.
	fitWave = 0.03
)
