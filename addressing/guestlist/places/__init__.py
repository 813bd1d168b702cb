"""What is known of places: states and ZIP codes, countries, postcodes and their areas."""
