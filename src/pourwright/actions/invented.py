"""What every invented record of the demo bench says of itself."""

INVENTED = "Invented for the demo bench."
