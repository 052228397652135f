package scheme

import "strings"

var groups = []Group{
	{"wearer", "The wearer"},
	{"ruff", "The ruff wanted"},
	{"look", "From a picture"},
	{"pleat", "Pleating and sewing to the band"},
	{"band", "The band"},
	{"strip", "The strip"},
	{"cloth", "The cloth"},
	{"starch", "Starch"},
	{"support", "What it rests on"},
	{"hand", "The maker's hand"},
	{"name", "This scheme"},
}

// table is the one table of fields, in the order of the document; the form takes
// its groups in their own order. code numbers are for share codes: a new field
// takes the next free one (58), whatever its place; a field that goes takes its
// number with it. A row is two lines: what the code needs, and what people read.
var table = rows(
	Field{Key: "name", code: 1, Kind: KindText, Max: 80, at: func(s *Scheme) any { return &s.Name },
		Label: "Name", Help: "What you call this ruff, on the sheets and in the list of saved schemes.", Changes: "Only what is printed on the sheets."},

	Field{Key: "wearer.part", code: 2, Kind: KindChoice, Default: "neck", at: func(s *Scheme) any { return (*string)(&s.Wearer.Part) }, Choices: []Choice{{"neck", "neck"}, {"wrist", "wrist, for a cuff"}},
		Label: "Worn at", Help: "A ruff for the neck, or a cuff for the wrist made the same way.", Changes: "Which girths are taken as possible, and which cautions are shown."},
	Field{Key: "wearer.girth", code: 3, Kind: KindLength, Min: 100, Max: 560, Default: "395", at: func(s *Scheme) any { return &s.Wearer.Girth },
		Label: "Girth", Help: "Around the neck just below the Adam's apple, or around the wrist, tape snug. Measure over whatever is worn under the band.", Changes: "The length of the band, and how much room each set has."},
	Field{Key: "wearer.ratio", code: 4, Kind: KindNumber, Min: 0.5, Max: 2, Default: "1", Rare: true, at: func(s *Scheme) any { return &s.Wearer.Ratio },
		Label: "Breadth ÷ depth", Help: "Breadth of the neck from side to side divided by its depth from front to back, by calipers. 1 is round, and close to most necks.", Changes: "The shape of the band from above, and how the sets spread at front and sides."},
	Field{Key: "wearer.ease", code: 5, Kind: KindLength, Min: 0, Max: 80, Default: "20", at: func(s *Scheme) any { return &s.Wearer.Ease },
		Label: "Ease", Help: "What the band is longer than the girth, so that the wearer can breathe, swallow and turn.", Changes: "The length of the band. A tight band is a danger."},
	Field{Key: "wearer.face", code: 6, Kind: KindLength, Min: 60, Max: 200, Zero: "not given", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Wearer.Face },
		Label: "Face height", Help: "From under the chin to the deepest point of the nose's root, on the wearer. Only needed to take proportions from a picture.", Changes: "The millimetres that a picture's proportions turn into."},

	Field{Key: "look.depth_ratio", code: 7, Kind: KindNumber, Min: 0, Max: 3, Zero: "not used", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Look.DepthRatio },
		Label: "Depth ÷ face", Help: "The ruff's depth divided by the height of the face, both measured in the same picture.", Changes: "The depth of the ruff: this times the wearer's face height."},
	Field{Key: "look.height_ratio", code: 8, Kind: KindNumber, Min: 0, Max: 3, Zero: "not used", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Look.HeightRatio },
		Label: "Height ÷ face", Help: "The ruff's height at its outer edge divided by the height of the face, both measured in the same picture.", Changes: "The height of the ruff: this times the wearer's face height."},
	Field{Key: "look.quarter", code: 9, Kind: KindCount, Unit: "sets", Min: 0, Max: 100, Zero: "not used", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Look.Quarter },
		Label: "Sets in a quarter", Help: "Sets counted in the picture over one quarter of the way round.", Changes: "The number of sets: four times this."},
	Field{Key: "look.measured", code: 66, Kind: KindText, Max: 80, Rare: true, at: func(s *Scheme) any { return &s.Look.Measured },
		Label: "Measured on it", Help: "What points on a portrait told of this ruff, and how far it may be off. Measuring one writes it.", Changes: "Only what is printed on the sheets."},

	Field{Key: "ruff.sets", code: 10, Kind: KindCount, Unit: "sets", Min: 8, Max: 400, Default: "40", at: func(s *Scheme) any { return &s.Ruff.Sets },
		Label: "Sets", Help: "Full waves around the whole ruff: up to a top fold and down to a bottom fold. A multiple of four can be pinned at the quarters.", Changes: "The length of the strip, and how closely the loops stand."},
	Field{Key: "ruff.depth", code: 11, Kind: KindLength, Min: 10, Max: 300, Default: "70", at: func(s *Scheme) any { return &s.Ruff.Depth },
		Label: "Depth", Help: "From the band to the outer edge, finished.", Changes: "The width of the strip, and how far the ruff stands out from the neck."},
	Field{Key: "ruff.height", code: 12, Kind: KindLength, Min: 5, Max: 150, Default: "45", at: func(s *Scheme) any { return &s.Ruff.Height },
		Label: "Height", Help: "From top fold to bottom fold at the outer edge, as you want to see it.", Changes: "The length from fold to fold, where that is left to be fitted."},
	Field{Key: "ruff.flaps", code: 13, Kind: KindChoice, Default: "fall", at: func(s *Scheme) any { return (*string)(&s.Ruff.Flaps) }, Choices: []Choice{{"fall", "fall"}, {"stand", "stand"}},
		Label: "Flaps wanted", Help: "Fall: the loops hang below the sewn row. Stand: they rise above it.", Changes: "Which folds must be sewn; you are told when the wrong ones are."},
	Field{Key: "ruff.ends", code: 14, Kind: KindChoice, Default: "fall", at: func(s *Scheme) any { return (*string)(&s.Ruff.Ends) }, Choices: []Choice{{"fall", "fall"}, {"stand", "stand"}},
		Label: "Ends wanted", Help: "How the last flap each side of the opening should lie.", Changes: "Which fold the strip must begin and end on; you are told when it does not."},

	Field{Key: "pleat.anchor", code: 15, Kind: KindChoice, Default: "both", at: func(s *Scheme) any { return (*string)(&s.Pleat.Anchor) }, Choices: []Choice{{"both", "both edges"}, {"top", "the top edge only"}, {"bottom", "the bottom edge only"}},
		Label: "Sewn to", Help: "Which edges of the band the folds are sewn to. Both: the top folds to the top edge, the bottom folds to the bottom edge.", Changes: "More than anything else: whether the outer edge stays where it is set when the wearer bows."},
	Field{Key: "pleat.sewn", code: 16, Kind: KindChoice, Default: "crests", at: func(s *Scheme) any { return (*string)(&s.Pleat.Sewn) }, Choices: []Choice{{"crests", "the top folds"}, {"troughs", "the bottom folds"}},
		Label: "Folds sewn", Help: "Where only one edge of the band is used: which folds are sewn to it. Top folds make the flaps fall, bottom folds make them stand.", Changes: "Whether the flaps fall or stand. Without effect where both edges are sewn."},
	Field{Key: "pleat.tuck_top", code: 17, Kind: KindLength, Min: 0, Max: 40, Default: "9", at: func(s *Scheme) any { return &s.Pleat.TuckTop },
		Label: "Tuck depth, top folds", Help: "At each top fold the cloth this far to both sides is brought together and the cloth between folds inward. It takes up twice this length at the band and none at the outer edge.", Changes: "How tall a loop fits a low band. Without effect where top folds are not sewn."},
	Field{Key: "pleat.tuck_bottom", code: 18, Kind: KindLength, Min: 0, Max: 40, Default: "9", at: func(s *Scheme) any { return &s.Pleat.TuckBottom },
		Label: "Tuck depth, bottom folds", Help: "The same at each bottom fold.", Changes: "How tall a loop fits a low band. Without effect where bottom folds are not sewn."},
	Field{Key: "pleat.panel", code: 19, Kind: KindLength, Min: 5, Max: 200, Zero: "fitted to the height", Default: "0", at: func(s *Scheme) any { return &s.Pleat.Panel },
		Label: "Fold to fold", Help: "Length along the strip from a top fold to the next bottom fold. Leave it 0 to have it found from the height you want.", Changes: "The height of the loops and the length of the strip."},
	Field{Key: "pleat.pitch", code: 20, Kind: KindLength, Min: 1, Max: 60, Zero: "shared out evenly", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Pleat.Pitch },
		Label: "Room for a set", Help: "Length of band that each set takes, if you have sewn some already. Leave it 0 to share the band out evenly.", Changes: "Whether the sets fill the band."},
	Field{Key: "pleat.lines", code: 21, Kind: KindCount, Min: 1, Max: 2, Default: "1", Rare: true, at: func(s *Scheme) any { return &s.Pleat.Lines },
		Label: "Stitch lines", Help: "Lines of gathering or sewing along the inner edge: one or two.", Changes: "A second line holds the cloth like the first, further out, and lowers the loops a little."},
	Field{Key: "pleat.line_gap", code: 22, Kind: KindLength, Min: 2, Max: 30, Default: "6", Rare: true, at: func(s *Scheme) any { return &s.Pleat.LineGap },
		Label: "Between the lines", Help: "From the first stitch line to the second.", Changes: "How much of the depth is held flat. Without effect with one line."},
	Field{Key: "pleat.catch", code: 63, Kind: KindLength, Min: 0, Max: 10, Zero: "at a point", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Pleat.Catch },
		Label: "Sewing holds", Help: "How far out from the band the sewing holds a fold still. Whipped to the band’s edge: 1 to 2 mm. Caught between two layers of the band: 5 to 10 mm (common practice, no source). 0 where a fold hangs by a point and can turn about it.", Changes: "How firmly sets sewn at one edge stand. Without effect with two stitch lines."},
	Field{Key: "pleat.first", code: 23, Kind: KindChoice, Default: "trough", Rare: true, at: func(s *Scheme) any { return (*string)(&s.Pleat.First) }, Choices: []Choice{{"trough", "a bottom fold"}, {"crest", "a top fold"}},
		Label: "Strip begins on", Help: "The fold at the strip's beginning. A bottom fold lies low and lets the end flap fall; a top fold turns it up.", Changes: "How the end at the beginning lies, and the strip's length by one fold."},
	Field{Key: "pleat.last", code: 24, Kind: KindChoice, Default: "trough", Rare: true, at: func(s *Scheme) any { return (*string)(&s.Pleat.Last) }, Choices: []Choice{{"trough", "a bottom fold"}, {"crest", "a top fold"}},
		Label: "Strip ends on", Help: "The fold at the strip's end.", Changes: "How the end at the other side of the opening lies, and the strip's length by one fold."},
	Field{Key: "pleat.marks", code: 25, Kind: KindMarks, Max: maxMarks, Rare: true, at: func(s *Scheme) any { return &s.Pleat.Marks },
		Label: "Own marks", Help: "Where a strip is marked already: for each mark its place in mm from the first, crest or trough, and sewn to top, bottom or no. As “0 trough bottom; 30.5 crest top; 61 trough bottom”.", Changes: "Takes the place of the planned marks, of the number of sets and of the folds at the ends."},

	Field{Key: "band.height", code: 26, Kind: KindLength, Min: 5, Max: 80, Default: "36", at: func(s *Scheme) any { return &s.Band.Height },
		Label: "Band height", Help: "From the band's bottom edge to its top edge, finished.", Changes: "Where top and bottom folds lie at the neck, and how much slack the cloth has between them."},
	Field{Key: "band.length", code: 27, Kind: KindLength, Min: 80, Max: 700, Zero: "as planned", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Band.Length },
		Label: "Band as made", Help: "Finished length of a band that exists already, overlap included. Leave it 0 to have it planned.", Changes: "Whether the band goes round the neck."},
	Field{Key: "band.overlap", code: 28, Kind: KindLength, Min: 0, Max: 60, Default: "15", at: func(s *Scheme) any { return &s.Band.Overlap },
		Label: "Overlap", Help: "Length of band that goes under the other end when closed, next to the skin. It carries no sets. 0 where the ends only meet.", Changes: "The length of the band."},
	Field{Key: "band.seam", code: 29, Kind: KindLength, Min: 0, Max: 30, Default: "10", Rare: true, at: func(s *Scheme) any { return &s.Band.Seam },
		Label: "Seam allowance", Help: "Added all round the band when it is cut.", Changes: "The cut size of the band."},
	Field{Key: "band.closure", code: 30, Kind: KindChoice, Default: "hooks", Rare: true, at: func(s *Scheme) any { return (*string)(&s.Band.Closure) }, Choices: []Choice{{"hooks", "hooks and eyes"}, {"ties", "ties"}, {"buttons", "buttons"}},
		Label: "Closure", Help: "How the band is closed. It should give way before it hurts.", Changes: "The list of what is needed and the order of work."},

	Field{Key: "strip.have", code: 31, Kind: KindLength, Min: 100, Max: 50000, Zero: "as planned", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Strip.Have },
		Label: "Strip at hand", Help: "Length of a strip that is cut, joined and hemmed already. Leave it 0 to have it planned.", Changes: "How many sets the strip gives, and whether they fill the band."},
	Field{Key: "strip.along", code: 32, Kind: KindChoice, Default: "weft", at: func(s *Scheme) any { return (*string)(&s.Strip.Along) }, Choices: []Choice{{"weft", "the weft"}, {"warp", "the warp"}},
		Label: "Strip runs along", Help: "Which thread runs along the length of the strip. The weft: strips are cut across the cloth, from one selvedge to the other, and joined. The warp: they are cut along it.", Changes: "The number of joins, the cloth to buy, and which of the two stiffnesses bends in the loops."},
	Field{Key: "strip.bolt", code: 33, Kind: KindLength, Min: 200, Max: 3000, Default: "1400", at: func(s *Scheme) any { return &s.Strip.Bolt },
		Label: "Width of the cloth", Help: "As sold, selvedge to selvedge.", Changes: "How many pieces the strip is joined from, and the cloth to buy."},
	Field{Key: "strip.selvedge", code: 34, Kind: KindLength, Min: 0, Max: 30, Default: "8", Rare: true, at: func(s *Scheme) any { return &s.Strip.Selvedge },
		Label: "Selvedge not used", Help: "On each side of the cloth.", Changes: "The usable width of the cloth."},
	Field{Key: "strip.hem", code: 35, Kind: KindLength, Min: 0, Max: 20, Default: "2", at: func(s *Scheme) any { return &s.Strip.Hem },
		Label: "Hem", Help: "Width of one turn of the hem at the outer edge and the ends.", Changes: "The cut width and length of the strip."},
	Field{Key: "strip.hem_turns", code: 36, Kind: KindCount, Min: 1, Max: 2, Default: "2", Rare: true, at: func(s *Scheme) any { return &s.Strip.HemTurns },
		Label: "Turns of the hem", Help: "Two hide the raw edge; one does where the edge is rolled and whipped or is a selvedge.", Changes: "The cut width and length of the strip."},
	Field{Key: "strip.takeup", code: 37, Kind: KindLength, Min: 0, Max: 40, Default: "8", at: func(s *Scheme) any { return &s.Strip.Takeup },
		Label: "Taken up by the band", Help: "Width of the strip beyond the stitch line: it is turned in along that line, and the folds are sewn there.", Changes: "The cut width of the strip."},
	Field{Key: "strip.join", code: 38, Kind: KindLength, Min: 0, Max: 15, Default: "1.5", Rare: true, at: func(s *Scheme) any { return &s.Strip.Join },
		Label: "Join allowance", Help: "On each side of a join between two pieces of the strip.", Changes: "The length to cut."},
	Field{Key: "strip.shrink_warp", code: 39, Kind: KindPercent, Min: 0, Max: 20, Default: "4", Rare: true, at: func(s *Scheme) any { return &s.Strip.ShrinkWarp },
		Label: "Shrinkage, warp", Help: "On the first wash, along the cloth. Mark 200 mm on a swatch, wash, dry, measure again. 0 if it is washed already.", Changes: "The cloth to buy."},
	Field{Key: "strip.shrink_weft", code: 40, Kind: KindPercent, Min: 0, Max: 20, Default: "3", Rare: true, at: func(s *Scheme) any { return &s.Strip.ShrinkWeft },
		Label: "Shrinkage, weft", Help: "The same across the cloth.", Changes: "The cloth to buy."},
	Field{Key: "strip.spare", code: 41, Kind: KindCount, Unit: "sets", Min: 0, Max: 20, Default: "2", Rare: true, at: func(s *Scheme) any { return &s.Strip.Spare },
		Label: "Spare", Help: "Sets of strip cut beyond what the plan needs.", Changes: "The length to cut."},

	Field{Key: "cloth.name", code: 42, Kind: KindChoice, Default: "cotton lawn", at: func(s *Scheme) any { return &s.Cloth.Name },
		Label: "Cloth", Help: "Fills the four figures below with guesses until you measure your own. The same name is sold in many weights: trust your swatch, not the name.", Changes: "Weight and stiffness of the ruff, where they are not measured."},
	Field{Key: "cloth.mass", code: 43, Kind: KindNumber, Unit: "g/m²", Min: 10, Max: 400, Zero: "by name", Default: "0", at: func(s *Scheme) any { return &s.Cloth.Mass },
		Label: "Mass", Help: "Weigh a square of 100 × 100 mm: its grams times 100. Ounces per square yard are taken too (2.8 oz/yd²).", Changes: "How much the cloth pulls itself down."},
	Field{Key: "cloth.thickness", code: 44, Kind: KindLength, Min: 0.03, Max: 1.5, Zero: "by name", Default: "0", at: func(s *Scheme) any { return &s.Cloth.Thickness },
		Label: "Thickness", Help: "Of one layer; measure ten laid flat under a light weight and divide.", Changes: "How many layers find room at the neck."},
	Field{Key: "cloth.bend_warp", code: 45, Kind: KindLength, Min: 5, Max: 120, Zero: "by name", Default: "0", at: func(s *Scheme) any { return &s.Cloth.BendWarp },
		Label: "Bending length, warp", Help: "Unstarched. Push a strip over a table's edge until the line to its tip falls at 41.5°: half of what hangs over.", Changes: "Stiffness along the warp: twice the length is eight times as stiff."},
	Field{Key: "cloth.bend_weft", code: 46, Kind: KindLength, Min: 5, Max: 120, Zero: "by name", Default: "0", at: func(s *Scheme) any { return &s.Cloth.BendWeft },
		Label: "Bending length, weft", Help: "The same with a strip cut across the cloth.", Changes: "Stiffness along the weft: twice the length is eight times as stiff."},
	Field{Key: "cloth.error", code: 65, Kind: KindPercent, Min: 0.5, Max: 60, Zero: "not told", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Cloth.Error },
		Label: "Bending lengths sure to", Help: "How far your bending lengths, starched or not, may be off, up or down. Several readings of a swatch tell it. Else a cloth by name may be half or twice as stiff, and your own lengths may be off by 10 %.", Changes: "How sure the height, the droop and the swing are told. Not the ruff itself."},
	Field{Key: "cloth.light", code: 64, Kind: KindNumber, Unit: "%", Min: 1, Max: 95, Zero: "by mass", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Cloth.Light },
		Label: "Light through it", Help: "The part of a lamp’s light that one layer lets through: read a light meter behind the swatch and without it, close by.", Changes: "How the cloth looks in the picture: what shines through, and how deep the folds’ shade is. Nothing else."},

	Field{Key: "starch.bend", code: 47, Kind: KindLength, Min: 5, Max: 250, Zero: "no starch", Default: "0", at: func(s *Scheme) any { return &s.Starch.Bend },
		Label: "Bending length, starched", Help: "Of a swatch cut as the strip is, starched, dried flat and tested over the table's edge. 0 for no starch.", Changes: "How firmly the sets keep the shape they were set in."},
	Field{Key: "starch.quality", code: 48, Kind: KindNumber, Min: 0, Max: 1, Default: "1", Rare: true, at: func(s *Scheme) any { return &s.Starch.Quality },
		Label: "Quality of the setting", Help: "1: every set dried to its full round. 0.5: half of the round came out again. 0: dried flat.", Changes: "How far the set shape is kept when the sticks come out."},
	Field{Key: "starch.dry", code: 58, Kind: KindChoice, Default: "sticks", Rare: true, at: func(s *Scheme) any { return (*string)(&s.Starch.Dry) }, Choices: []Choice{{"sticks", "on sticks"}, {"hung", "hung up, without sticks"}},
		Label: "Sets dry", Help: "On sticks: every damp loop is drawn snugly over a round stick and dries on it. Hung up: the loops dry as they hang from the band.", Changes: "The shape that the starch keeps."},
	Field{Key: "starch.stick", code: 59, Kind: KindLength, Min: 2, Max: 60, Zero: "as the loops are", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Starch.Stick },
		Label: "Stick", Help: "Thickness of the sticks, measured where they lie at the outer edge. Leave it 0 for the stick on which the loops stand as tall as they do by themselves: the starch card names it. A thinner one draws them taller.", Changes: "Height of the sets and width of their loops. Without effect where sets dry hung up."},
	Field{Key: "starch.tip", code: 60, Kind: KindLength, Min: 1, Max: 60, Zero: "no thinner", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Starch.Tip },
		Label: "Stick’s tip", Help: "Thickness of a tapered stick at its inner end, towards the neck. Enter the stick first: its tip is no thicker. Leave it 0 for a stick of one thickness.", Changes: "The loops’ width towards the neck. Without effect where sets dry hung up."},
	Field{Key: "starch.reach", code: 61, Kind: KindLength, Min: 5, Max: 300, Zero: "half the depth", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Starch.Reach },
		Label: "Stick reaches in", Help: "How far the stick goes into the loop, from the outer edge towards the neck. Leave it 0 for half the depth of the ruff.", Changes: "How much of the depth the stick shapes. Without effect where sets dry hung up."},
	Field{Key: "starch.shear", code: 62, Kind: KindNumber, Unit: "N/m", Min: 60, Max: 20000, Zero: "guessed", Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Starch.Shear },
		Label: "Shear, starched", Help: "How hard it is to pull the starched cloth askew, square threads to a diamond. The swatch card has the test: a strip cut at 45° is pulled. 0 for a guess: about ten times fresh cloth’s 60 N/m, less where there is little starch. No published figure was found.", Changes: "How far sets sewn at one edge move when the wearer bows. Without effect where there is no starch."},
	Field{Key: "starch.bath", code: 49, Kind: KindNumber, Unit: "g/L", Min: 0, Max: 150, Default: "35", at: func(s *Scheme) any { return &s.Starch.Bath },
		Label: "Bath", Help: "Dry starch for each litre of water. Kitchen guidance: 10 soft, 20 light, 35 medium, 70 stiff, 100 very stiff.", Changes: "Only how much starch to cook; test a swatch for what it does."},
	Field{Key: "starch.kind", code: 50, Kind: KindChoice, Default: "maize", Rare: true, at: func(s *Scheme) any { return (*string)(&s.Starch.Kind) }, Choices: []Choice{{"maize", "maize"}, {"wheat", "wheat"}, {"potato", "potato"}, {"rice", "rice"}},
		Label: "Starch", Help: "Any of the four is cooked when it has been kept near boiling until clear.", Changes: "Only the guidance for cooking."},

	Field{Key: "support.kind", code: 51, Kind: KindChoice, Default: "none", at: func(s *Scheme) any { return (*string)(&s.Support.Kind) }, Choices: []Choice{{"none", "nothing"}, {"collar", "a collar"}, {"supporter", "a supporter"}},
		Label: "Rests on", Help: "What lies under the ruff and carries its outer part.", Changes: "How low the ruff can sink."},
	Field{Key: "support.drop", code: 52, Kind: KindLength, Min: 0, Max: 60, Default: "10", at: func(s *Scheme) any { return &s.Support.Drop },
		Label: "Support below the band", Help: "From the band's bottom edge down to the support, at the neck.", Changes: "How low the ruff can sink. Without effect where it rests on nothing."},
	Field{Key: "support.slope", code: 53, Kind: KindAngle, Unit: "°", Min: -30, Max: 60, Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Support.Slope },
		Label: "Support's slope", Help: "How the support rises outward (+) or falls (−).", Changes: "How the ruff tilts when it rests."},

	Field{Key: "hand.error", code: 54, Kind: KindLength, Min: 0, Max: 20, Default: "1", Rare: true, at: func(s *Scheme) any { return &s.Hand.Error },
		Label: "Marking error", Help: "How far your marks scatter about the right place. Mark twenty, measure again, take the usual miss.", Changes: "How uneven the loops will be."},
	Field{Key: "hand.drift", code: 55, Kind: KindLength, Unit: "mm a set", Min: -5, Max: 5, Default: "0", Rare: true, at: func(s *Scheme) any { return &s.Hand.Drift },
		Label: "Drift", Help: "How much each set comes out longer (+) or shorter (−) when marks are stepped one from the next. 0 when all are measured from one end.", Changes: "How far the last mark lies from its place."},
	Field{Key: "hand.stitches", code: 56, Kind: KindNumber, Unit: "per cm", Min: 2, Max: 15, Default: "6", Rare: true, at: func(s *Scheme) any { return &s.Hand.Stitches },
		Label: "Stitches", Help: "Stitches of the hem in each centimetre.", Changes: "The hours."},
	Field{Key: "hand.pace", code: 57, Kind: KindChoice, Default: "learner", Rare: true, at: func(s *Scheme) any { return (*string)(&s.Hand.Pace) }, Choices: []Choice{{"learner", "learning"}, {"practised", "practised"}},
		Label: "Pace", Help: "Whether this is a first ruff or one of many.", Changes: "The hours."},
)

// rows fills in what follows from the rest of each row: the group from the key,
// the usual unit of the kind, the named cloths.
func rows(fields ...Field) []Field {
	for i := range fields {
		f := &fields[i]
		f.Group, _, _ = strings.Cut(f.Key, ".")
		switch {
		case f.Kind == KindLength && f.Unit == "":
			f.Unit = "mm"
		case f.Kind == KindPercent:
			f.Unit = "%"
		}
		if f.Key == "cloth.name" {
			for _, c := range cloths {
				f.Choices = append(f.Choices, Choice{c.Name, c.Name})
			}
		}
	}
	return fields
}
