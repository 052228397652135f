package cloth

// Kitchen guidance, not measurement: how much starch a litre of water takes. No
// source gives the stiffness that a bath leaves in a cloth (it depends on the
// cloth, the wringing and the iron), so nothing here enters a calculation: the
// swatch decides. Who shows these shows the caution of boiling starch with them.

// Bath is a strength of boiled starch to begin a swatch with.
type Bath struct {
	Name      string
	Starch_gL float64 // g of dry starch per litre of water
	Recipes   string  // what recipes say near it
	Source    string  // of the recipes; the step itself is a judgement, no source
}

// Baths lists the strengths, weakest first: the steps are a judgement among the
// recipes named (grams per litre computed at 8 g a level 15 mL spoon of maize
// starch).
func Baths() []Bath {
	const (
		light  = "household recipe, 1 to 2 spoons a litre: 8 to 16 g/L"
		fine   = "old fine boiled starch, 2 to 3 spoons a quart: 17 to 25 g/L; halved strength for lawns: 34"
		collar = "raw starch for collars: 34 g/L; boiled 'ordinary': 68"
		stiff  = "'ordinary' boiled starch, half a cup a quart: 68 g/L"
		double = "doubled for collars: 135 g/L"
		ladies = "The Ladies Book of Useful Information"
		home   = "The Complete Home"
		school = "Ontario Teachers' Manuals: Household Management"
		web    = "a household recipe page (vanessashomekitchen.blogspot.com, March 2010)"
	)
	return []Bath{
		{"soft", 10, light, web},
		{"light", 20, fine, ladies + "; " + home},
		{"medium", 35, collar, school + "; " + home},
		{"stiff", 70, stiff, home},
		{"very stiff", 100, double, home},
	}
}
